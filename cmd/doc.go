// Package cmd holds the programs and the scripts that build and test them; its
// own tests hold the house to its order.
package cmd

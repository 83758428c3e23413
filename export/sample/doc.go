// Package sample has bands for the tests of export: one laid by hand, whose figures are
// known without the code that is tested, and those of testdata, laid and measured. Only
// tests import it.
package sample

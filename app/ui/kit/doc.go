// Package kit is the dress that all rooms of the window share: colours, text, buttons,
// entries, dialogs. It knows of designs only what a finding's severity is and which options
// a choice has.
//
// A widget of our own is here only where the toolkit's can't do what is needed, and its
// comment says why.
package kit

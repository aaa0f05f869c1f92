// Package record reads what a maker wrote: the YAML and Markdown files of a
// workroom, each word with the line and column it stands in.
//
// It promises to be strict and kind: every fault of every file is found in
// one go, placed, and answered with what was probably meant; bad input never
// panics. The same types that the reader fills print the JSON Schema of each
// file kind, so that the two cannot drift apart. What is private is wrapped
// in [Private] and does not print. It derives no figures and writes no HTML.
package record

// Package workings holds no code of the program: its tests are the judge of
// every working that hembook shows.
//
// A figure shows how it was reached: a sum, what went into it, where that was
// written, and where a figure is not known, why. The tests read all of it back
// over the demo workroom, over made-up rooms in millimetres and in inches, and
// over the demo turned to inches, with an evaluator (package reckon) that
// shares no code with what printed it.
//
// Nothing may be found.
package workings

// Package measure gives lengths, areas, masses, times and money their units:
// it reads them as a maker writes them and prints them as a workroom shows
// them.
//
// It promises that a [Length] is exact for every whole nanometre, which covers
// millimetres and every inch fraction down to 1/64; that text is either read
// exactly (then rounded once, half away from zero) or refused with a
// [fault.List] that says where, what is wrong and what was probably meant; and
// that the same value prints as the same bytes on every machine.
//
// It leaves out where a text came from (the record's business), how a value
// was reached (the garment's), and any rounding up to what a shop sells.
package measure

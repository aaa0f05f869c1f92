package record

import "reflect"

// notYet are words that are meant to be read one day, by the group they stand in,
// with what they will mean. Who writes one is told so, and not that it is unknown.
var notYet = map[reflect.Type]map[string]string{
	reflect.TypeFor[Build](): {
		"came":  "the day a garment arrived that was not made here",
		"found": "what is wrong with a garment that is to be mended",
	},
	reflect.TypeFor[ForWhom](): {"posture": "a draft for a sitting wearer"},
	reflect.TypeFor[Piece]():   {"given": "a thing that is there already, of which only lengths are known"},
	reflect.TypeFor[Notion](): {
		"through": "lacing", "gap": "a gap that lacing leaves", "width": "the width of a notion",
	},
}

// A wishing thing wants to know which words stand in it that are to be read one day.
type wishing interface{ wishes(word string) }

// yetTo tells of a word that will be read one day; false where there is no such.
func (k *structKind) yetTo(d *decoder, each pair) bool {
	meaning, wished := notYet[k.t][each.key.V]
	if wished {
		d.faults.Errorf(each.key.At, "leave it out, or say it in a remark", "not yet: %s, %s", each.key.V, meaning)
	}
	return wished
}

// gone are words that are needed no more, by the group they stood in, with what
// is written in their place.
var gone = map[reflect.Type]map[string]string{
	reflect.TypeFor[Seam](): {
		"run":       "edges that are cut unequally often, and several on one edge, are sewn end to end anyway: leave it out",
		"walk":      "which way its edges go follows from what lies at their ends: leave it out",
		"stretches": "it is said with ease: or gather: now, as ease: [8 from front to top]",
	},
	reflect.TypeFor[Notion]():    {"over": "they are set out along an edge now, as along: front.front, first: 20 from neck, every: 60"},
	reflect.TypeFor[LevelSpec](): {"overlap": "it is said once now: by the line of the buttons, as along: 15 inside front.front, or in the seam of a band"},
	reflect.TypeFor[Step]():      {"id": "a step is called by its name, or by the first words of it"},
	reflect.TypeFor[Fitting]():   {"round": "fittings are numbered by their order: leave it out"},
	reflect.TypeFor[Build](): {
		"least-ease": "it stands under usual: now, as usual: {least-ease: {waist: 10}}",
		"truing":     "it stands under usual: now, as usual: {truing: {angle: 8}}",
	},
}

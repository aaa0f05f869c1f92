package record

import (
	"reflect"

	"hembook/internal/say"
)

// notYet are words that are meant to be read one day, by the group they stand in,
// with what they will mean. Who writes one is told so, and not that it is unknown.
var notYet = map[reflect.Type]map[string]string{
	reflect.TypeFor[Build](): {
		"came":  say.Of("record.the-day-a-garment-arrived-that-was"),
		"found": say.Of("record.what-is-wrong-with-a-garment-that"),
	},
	reflect.TypeFor[ForWhom](): {"posture": say.Of("record.a-draft-for-a-sitting-wearer")},
	reflect.TypeFor[Piece]():   {"given": say.Of("record.a-thing-that-is-there-already-of")},
	reflect.TypeFor[Notion](): {
		"through": "lacing", "width": say.Of("record.the-width-of-a-notion"),
	},
}

// A wishing thing wants to know which words stand in it that are to be read one day.
type wishing interface{ wishes(word string) }

// yetTo tells of a word that will be read one day; false where there is no such.
func (k *structKind) yetTo(d *decoder, each pair) bool {
	meaning, wished := notYet[k.t][each.key.V]
	if wished {
		d.faults.Wrong(each.key.At, say.Of("record.leave-it-out-or-say-it-in"), say.Of("record.not-yet", each.key.V, meaning))
	}
	return wished
}

// gone are words that are needed no more, by the group they stood in, with what
// is written in their place.
var gone = map[reflect.Type]map[string]string{
	reflect.TypeFor[Seam](): {
		"run":       say.Of("record.edges-that-are-cut-unequally-often-and"),
		"walk":      say.Of("record.which-way-its-edges-go-follows-from"),
		"stretches": say.Of("record.it-is-said-with-ease-or-gather"),
	},
	reflect.TypeFor[Notion]():    {"over": say.Of("record.they-are-set-out-along-an-edge"), "gap": say.Of("record.what-lacing-leaves-open-is-said")},
	reflect.TypeFor[LevelSpec](): {"overlap": say.Of("record.it-is-said-once-now-by-the")},
	reflect.TypeFor[Step]():      {"id": say.Of("record.a-step-is-called-by-its-name")},
	reflect.TypeFor[Fitting]():   {"round": say.Of("record.fittings-are-numbered-by-their-order")},
	reflect.TypeFor[Build](): {
		"least-ease": say.Of("record.it-stands-under-usual-now-as-usual"),
		"truing":     say.Of("record.it-stands-under-usual-now-as-usual-2"),
	},
}

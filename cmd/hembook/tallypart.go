package main

import (
	"slices"

	"hembook/internal/compose"
	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/meant"
	"hembook/internal/notebook"
	"hembook/internal/record"
	"hembook/internal/say"
)

// partNames are the parts of a garment's page.
func partNames() []string {
	var names []string
	for _, p := range compose.BuildParts {
		names = append(names, p.ID)
	}
	return names
}

// partNamed is the part that a word names.
func partNamed(word string) (compose.Part, error) {
	for _, p := range compose.BuildParts {
		if meant.Plain(p.ID) == meant.Plain(word) {
			return p, nil
		}
	}
	return compose.Part{}, misused(say.Of("hembook.a-page-has-no-part", say.Quoted(word), meant.Among(word, partNames(), say.Of("hembook.one-of"))))
}

// printPart prints a part of the build's page, in the blocks that the page shows.
func (t *tally) printPart(on *buildAtHand, cut *cutting.Cutting) error {
	part, err := partNamed(t.part)
	if err != nil {
		return err
	}
	page, err := t.pageOf(on.room, on.tailor, on.file, cut)
	if err != nil {
		return err
	}
	d := compose.NewDraft(on.room.Workroom.Style())
	d.Moment = momentForm
	part.Compose(d, page)
	if t.json {
		return document.PrintJSON(t.out, reportOf(on.file, &d.Draft))
	}
	if len(d.Blocks) == 0 {
		d.Say(document.Say(say.Of("hembook.has-nothing-under", on.file.Name, part.Name)))
	}
	tell(t.out, &d.Draft, t.working)
	printFaults(t.errs, cut.Garment.Faults)
	return nil
}

// pageOf is the page of a build, with its work as it stands now.
func (t *tally) pageOf(room *record.Room, tailor *derive.Tailor, bf record.BuildFile, cut *cutting.Cutting) (*notebook.BuildPage, error) {
	from, err := t.standing(room, tailor, bf, cut.Garment)
	if err != nil {
		return nil, err
	}
	i := slices.IndexFunc(room.Builds, func(other record.BuildFile) bool { return other.Slug == bf.Slug })
	return notebook.New(room).Build(i, cut, tailor.Timing(cut.Garment, from)), nil
}

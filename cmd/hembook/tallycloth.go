package main

import (
	"context"
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

// clothNames are the cloths of a workroom.
func clothNames(room *record.Room) []string {
	var out []string
	for _, c := range room.Cloths {
		out = append(out, c.Slug)
	}
	return out
}

// clothNamed finds a cloth by the name of its file or by its own.
func clothNamed(room *record.Room, word string) (*record.Cloth, error) {
	for _, c := range room.Cloths {
		if meant.Plain(c.Slug) == meant.Plain(word) || meant.Plain(c.Name.V) == meant.Plain(word) {
			return c, nil
		}
	}
	return nil, misused(say.Of("hembook.there-is-no-cloth", say.Quoted(word), meant.Among(word, clothNames(room), say.Of("hembook.there-are"))))
}

// runCloth prints what came of a cloth, what was cut from it and what is left.
func (t *tally) runCloth() error {
	room, _, err := t.opt.openRoom()
	if err != nil {
		return err
	}
	defer room.Close()
	c, err := clothNamed(room, t.cloth)
	if err != nil {
		return err
	}
	page := clothPage(room, c)
	d := compose.NewDraft(room.Workroom.Style())
	d.Say(document.Say(page.Heading + " (" + c.Slug + ")"))
	compose.Ledger(d, page.Ledger)
	compose.Remnants(d, page)
	if page.Ledger == nil {
		d.Say(document.Say(say.Of("hembook.its-file-does-not-say-what-came")))
	}
	if t.json {
		return document.PrintJSON(t.out, jsonReport{Cloth: c.Slug, Name: page.Heading, JSONDocument: d.JSON()})
	}
	tell(t.out, &d.Draft, t.working)
	return nil
}

// clothPage lays out the page of a cloth from the builds that name it.
func clothPage(room *record.Room, c *record.Cloth) *notebook.ClothPage {
	book := notebook.New(room)
	tailor, _ := derive.NewTailor(room)
	cutter := cutting.NewCutter(context.Background(), room, tailor, cutting.Options{Mode: cutting.KeptOnly})
	var lines []*notebook.BuildLine
	for i, bf := range room.Builds {
		b, _ := room.ReadBuild(bf)
		uses := func(use record.Named[record.ClothUse]) bool { return use.V.Use.V == c.Slug }
		if slices.ContainsFunc(b.Cloth, uses) {
			lines = append(lines, book.BuildLine(i, cutter.Cut(b).Garment))
		}
	}
	return book.Gather(lines).Cloth(c)
}

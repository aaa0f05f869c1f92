package press

import (
	"bytes"
	"html/template"
	"slices"

	"hembook/internal/compose"
	"hembook/internal/notebook"
	"hembook/internal/prose"
)

// A BuildView is what pages/build.html is given: the build's own page. Its
// Parts are finished HTML; those the record says nothing of are left out.
type BuildView struct {
	Frame
	Holds      *notebook.BuildPage
	Picture    template.HTML
	Pictures   template.HTML
	Glance     template.HTML // how large it is, what it took, what it is made of, how it is cared for
	Told       bool          // it tells a story, beside which its pictures stand
	Leaves     []Way         // the pages of the build, this one among them
	LeavesHTML template.HTML // Leaves as a list; empty where there is but one
	Rules      template.HTML // rules that several figures of the page rest on
	Record     string        // the way to the page of the record; empty where it is not shown, or the page has no figure from it
}

// A LeafView is what pages/leaf.html is given: a further page of a build.
type LeafView struct {
	Frame
	Holds      *notebook.BuildPage
	Leaf       notebook.Leaf
	Leaves     []Way
	LeavesHTML template.HTML // Leaves as a list
	Rules      template.HTML
	Record     string
}

// A RecordView is what pages/record.html is given.
type RecordView struct {
	Frame
	Holds      *notebook.RecordPage
	Leaves     []Way
	LeavesHTML template.HTML // Leaves as a list
	Record     template.HTML
}

// printBuild prints the pages of a build.
func (p *printer) printBuild(b *notebook.BuildPage) error {
	if !p.failed.Load() {
		p.pictures.hangAhead(picturesOf(b))
	}
	var err error
	if p.buildsCard, err = p.buildCard(b); err != nil {
		return err
	}
	p.rules.Reset()
	p.stands, p.workings = map[string]notebook.Address{}, map[string]notebook.Address{}
	p.html.Reset()
	p.html.Folder, p.html.Lineage = b.Folder, b.Lineage
	p.leafPages = p.leaves(b)
	p.recordText = nil
	if b.Record != nil {
		p.recordText = recordPages(prose.YAML(nil, b.Record.Text), leafRoom)
	}
	v := &BuildView{Frame: p.begin(b.Head), Holds: b}
	v.about.Genre, v.about.Created, v.about.Published = b.Garment, b.Begun.String(), b.Sent.String()
	for _, c := range b.Cloths {
		v.about.Material = append(v.about.Material, c.Cloth.Name)
	}
	v.Picture = p.photoOf(b.Picture, compose.Top)
	for i := range b.Pictures {
		v.Pictures += p.photoOf(&b.Pictures[i], compose.Beside)
	}
	var opens bool
	parts := whole(p.stretches(b, ""))
	p.noteWorkings(parts, b.Address)
	for _, part := range parts {
		if _, begun := p.stands[part.part.ID]; !begun {
			p.stands[part.part.ID] = b.Address
		}
	}
	v.Parts, v.Rules, opens = p.fill(parts)
	v.Inside = inside(parts)
	v.InsideHTML = listHTML(v.Inside)
	v.Told = slices.ContainsFunc(v.Parts, func(p Part) bool { return p.ID == "story" })
	v.Leaves = p.leafLinks(b, p.leafPages, b.Address)
	v.LeavesHTML = listHTML(v.Leaves)
	v.Record = p.recordOf(b, opens)
	v.Glance = p.made(b.Folder, func(d *compose.Draft) { compose.Glance(d, b) })
	if err := p.print("build", v); err != nil {
		return err
	}
	for i := range p.leafPages {
		if err := p.printLeaf(b, &p.leafPages[i]); err != nil {
			return err
		}
	}
	if b.Record == nil {
		return nil
	}
	return p.printRecord(b)
}

// picturesOf are the pictures that the pages of a build show, those in its texts apart;
// none where it has but one, which need not be hung ahead.
func picturesOf(b *notebook.BuildPage) (paths []string) {
	add := func(pic *notebook.Picture) {
		if pic != nil {
			paths = append(paths, pic.Path)
		}
	}
	add(b.Picture)
	for i := range b.Pictures {
		add(&b.Pictures[i])
	}
	for i := range b.Fittings {
		add(b.Fittings[i].Picture)
	}
	for i := range b.Journal {
		add(b.Journal[i].Picture)
	}
	if len(paths) < 2 {
		return nil
	}
	return paths
}

// printLeaf prints a further page of a build.
func (p *printer) printLeaf(b *notebook.BuildPage, l *leafPage) error {
	v := &LeafView{Frame: p.begin(l.leaf.Head), Holds: b, Leaf: l.leaf}
	var opens bool
	v.Parts, v.Rules, opens = p.fill(l.parts)
	v.Inside = inside(l.parts)
	v.InsideHTML = listHTML(v.Inside)
	v.Leaves = p.leafLinks(b, p.leafPages, l.leaf.Address)
	v.LeavesHTML = listHTML(v.Leaves)
	v.Record = p.recordOf(b, opens)
	return p.print("leaf", v)
}

// recordOf is the way to the record from a page that shows figures of it.
func (p *printer) recordOf(b *notebook.BuildPage, opens bool) string {
	if b.Record == nil || !opens {
		return ""
	}
	return p.href(b.Record.Address)
}

// printRecord prints the record of a build, on as many pages as it needs.
func (p *printer) printRecord(b *notebook.BuildPage) error {
	for i, text := range p.recordText {
		head := b.Record.Leaf(i + 1)
		v := &RecordView{Frame: p.begin(head), Holds: b.Record}
		v.Leaves = p.leafLinks(b, p.leafPages, head.Address)
		v.LeavesHTML = listHTML(v.Leaves)
		v.Record = template.HTML(text)
		if err := p.print("record", v); err != nil {
			return err
		}
	}
	return nil
}

// recordPages divides a highlighted record at the ends of lines: where a group
// of the record ends, if there is such a place late enough on the page.
func recordPages(text []byte, room int) [][]byte {
	var out [][]byte
	for len(text) > room {
		end := 1 + bytes.LastIndexByte(text[:room], '\n')
		if group := 1 + bytes.LastIndex(text[:end], []byte("\n<span class=\"nt\">")); group > room/2 {
			end = group
		}
		if end == 0 { // a single line, longer than a page
			if end = 1 + bytes.IndexByte(text, '\n'); end == 0 {
				break
			}
		}
		out, text = append(out, text[:end]), text[end:]
	}
	if len(text) > 0 || len(out) == 0 {
		out = append(out, text)
	}
	return out
}

package main

import (
	"fmt"
	"io"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/say"
	"hembook/internal/sheet"
)

// packBlocks are where care and content come from.
func packBlocks(d *document.Draft, packet *sheet.Packet, working bool) {
	d.Say(document.Say(packet.Title))
	tell := compose.PlainLabel{Style: d.Style}
	var care, content document.Facts
	add := func(to *document.Facts, term string, says ...document.Inline) {
		fact := document.Fact{Term: term}
		for _, r := range says {
			fact.Says = append(fact.Says, d.Phrase(r))
		}
		to.Items = append(to.Items, fact)
	}
	for _, l := range compose.CareLines(tell, packet.Care) {
		if l.Unknown != "" {
			add(&care, say.Of("hembook.not-counted"), document.Say(l.Term+" ("+l.Unknown+")"))
			continue
		}
		add(&care, l.Term, document.Say(l.Words), document.Inline{Words: l.By, Behind: &document.Behind{Workings: l.Workings}})
	}
	for i, l := range compose.FibreLines(tell, packet.Content) {
		if l.Unknown != "" {
			add(&content, l.Term, document.Say(say.Of("hembook.not-known-yet-because", l.Unknown)))
			continue
		}
		share := say.Of("hembook.weight-not-known-yet")
		if k := &packet.Content.Components[i]; k.Share.Value.Known() {
			share = say.Of("hembook.of-the-garment", fmt.Sprintf("%.1f", k.Share.Value.Number))
		}
		add(&content, l.Term, document.Say(l.Words), document.Say(share+"; "+l.By))
	}
	for _, l := range packet.Content.LeftOut {
		add(&content, l.Part, document.Say(say.Of("hembook.left-out", l.Why)))
	}
	if len(packet.Content.Whole) > 0 {
		add(&content, say.Of("hembook.all-together"), document.Say(compose.Fibres(tell, packet.Content.Whole)))
	}
	d.Add(document.Section{Head: say.Of("hembook.care-the-gentlest-that-any-layer-needs"), Blocks: []document.Block{care}},
		document.Section{Head: say.Of("hembook.fibres-by-the-rules-of-the", strings.ToUpper(packet.Content.Market)), Blocks: []document.Block{content}})
	if working {
		d.Add(document.Section{Blocks: []document.Block{facts(d, public(packet.Content.Figures()), true)}})
	}
}

type (
	// A jsonPacket is what is missing from a packet, and what its label rests on.
	jsonPacket struct {
		jsonReport
		Refused  bool          `json:"refused"`
		Findings []jsonFinding `json:"findings"`
		Content  jsonContent   `json:"content"`
		Care     jsonCare      `json:"care"`
	}
	jsonFinding struct {
		Refused bool   `json:"refused"`
		About   string `json:"about"`
		Text    string `json:"text"`
		Hint    string `json:"hint,omitempty"`
		Reason  string `json:"reason,omitempty"`
		File    string `json:"file,omitempty"`
		Line    int32  `json:"line,omitempty"`
		Column  int32  `json:"column,omitempty"`
	}
)

// packJSON prints what a packet rests on for other programs.
func packJSON(out io.Writer, of jsonReport, p *sheet.Packet) error {
	j := jsonPacket{jsonReport: of, Refused: p.Refused(), Findings: []jsonFinding{}, Content: contentJSON(p.Content), Care: careJSON(p.Care)}
	j.namesOf(p.Content.Figures())
	for _, f := range p.Findings {
		j.Findings = append(j.Findings, jsonFinding{f.Refused, f.About, f.Text, f.Hint, f.Reason, f.At.File(), f.At.Line, f.At.Column})
	}
	return document.PrintJSON(out, j)
}

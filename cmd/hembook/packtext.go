package main

import (
	"fmt"
	"io"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/sheet"
)

// packText prints where care and content come from.
func packText(out io.Writer, packet *sheet.Packet, working bool) {
	fmt.Fprintf(out, "%s\n\ncare: the strictest of %s\n", packet.Title, counted(len(packet.Care.Layers), "layer"))
	for _, a := range packet.Care.Axes {
		var words []string
		for _, o := range a.Options {
			words = append(words, o.Words)
		}
		fmt.Fprintf(out, "  %-18s %s\n", a.Title, strings.Join(words, ", "))
		switch {
		case a.Chosen:
			fmt.Fprintf(out, "  %-18s chosen by the maker: %s\n", "", packet.Care.Because)
		case len(a.SetBy) == len(packet.Care.Layers):
			fmt.Fprintf(out, "  %-18s every layer alike\n", "")
		default:
			fmt.Fprintf(out, "  %-18s set by %s\n", "", strings.Join(a.SetBy, "; "))
		}
		if working {
			workingText(out, a.Working)
		}
	}
	for _, u := range packet.Care.Unknown {
		fmt.Fprintf(out, "  not reckoned with: %s (%s)\n", u.Name, u.Why)
	}
	fmt.Fprintf(out, "\ncontent, by the rules of the %s\n", strings.ToUpper(packet.Content.Market))
	for i := range packet.Content.Components {
		k := &packet.Content.Components[i]
		fmt.Fprintf(out, "  %-18s %s\n", strings.Join(k.Parts, ", "), fibreList(k.Fibres))
		share := "of a mass that is not known"
		if k.Share.Value.Known() {
			share = fmt.Sprintf("%.1f %% of the garment", k.Share.Value.Number)
		}
		fmt.Fprintf(out, "  %-18s %s; %s\n", "", share, k.Why)
	}
	for _, l := range packet.Content.LeftOut {
		fmt.Fprintf(out, "  %-18s left out: %s\n", l.Part, l.Why)
	}
	if len(packet.Content.Whole) > 0 {
		fmt.Fprintf(out, "  %-18s %s\n", "all together", fibreList(packet.Content.Whole))
	}
	if working {
		fmt.Fprintln(out)
		for _, f := range packet.Content.Figures() {
			fmt.Fprintf(out, "  %s of %s: %s\n", f.Title, f.Of, valueText(measure.Style{}, f.Value))
			workingText(out, f.Working)
		}
	}
	fmt.Fprintln(out)
}

// workingText prints how something was reached.
func workingText(out io.Writer, w figure.Working) {
	for _, in := range w.Inputs() {
		from := in.From
		if in.At.Given() {
			from = strings.TrimPrefix(in.At.String()+", "+in.From, ", ")
		}
		fmt.Fprintf(out, "      %s: %s (%s)\n", in.Name, in.Value, strings.TrimSuffix(from, ", "))
	}
	if w.Sum() != "" {
		fmt.Fprintf(out, "      = %s\n", w.Sum())
	}
	fmt.Fprintf(out, "      rule: %s (%s)\n", w.Rule, w.Source)
}

func fibreList(list []garment.FibrePart) string {
	var out []string
	for _, f := range list {
		out = append(out, f.Name+" "+f.LabelText())
	}
	return strings.Join(out, ", ")
}

type (
	jsonPacket struct {
		Build    string        `json:"build"`
		Name     string        `json:"name"`
		Refused  bool          `json:"refused"`
		Findings []jsonFinding `json:"findings"`
		Care     []jsonAxis    `json:"care"`
		Market   string        `json:"market"`
		Content  []jsonFigure  `json:"content"`
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
	jsonAxis struct {
		Axis    string      `json:"axis"`
		Options []string    `json:"options"`
		Words   []string    `json:"words"`
		SetBy   []string    `json:"set-by"`
		Chosen  bool        `json:"chosen,omitempty"`
		Working jsonWorking `json:"working"`
	}
)

// packJSON prints what a packet rests on for other programs.
func packJSON(out io.Writer, bf record.BuildFile, p *sheet.Packet) error {
	j := jsonPacket{Build: bf.Slug, Name: bf.Name, Refused: p.Refused(), Findings: []jsonFinding{}, Care: []jsonAxis{}, Market: p.Content.Market, Content: []jsonFigure{}}
	for _, f := range p.Findings {
		j.Findings = append(j.Findings, jsonFinding{f.Refused, f.About, f.Text, f.Hint, f.Reason, f.At.File(), f.At.Line, f.At.Column})
	}
	for _, a := range p.Care.Axes {
		one := jsonAxis{Axis: a.Name, SetBy: append([]string{}, a.SetBy...), Chosen: a.Chosen, Working: workingJSON(a.Working)}
		for _, o := range a.Options {
			one.Options, one.Words = append(one.Options, o.Name), append(one.Words, o.Words)
		}
		j.Care = append(j.Care, one)
	}
	for _, f := range p.Content.Figures() {
		j.Content = append(j.Content, figureJSON(shown{f, false}))
	}
	return printJSON(out, j)
}

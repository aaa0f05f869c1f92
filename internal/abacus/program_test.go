package abacus_test

import (
	"math/big"
	"os"
	"strings"
	"testing"
	"time"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/label"
	"hembook/internal/madeup"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// A printed figure is one as the program gives it: what `tally --json` prints
// of it, taken from the same lists.
type printed struct {
	value float64
	unit  string
	money *big.Rat
	words string
	why   string
}

// program derives a workroom's build and lists its figures by ID: those of the
// garment, the private ones, those of the order of work, and the shares of the
// fibres. faults are what the reader found.
func program(t testing.TB, files map[string]string, build string, round int) (figures map[string]printed, faults []fault.Fault) {
	t.Helper()
	dir, err := os.MkdirTemp("", "abacus")
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(dir)
	if err := madeup.Write(dir, files); err != nil {
		t.Fatal(err)
	}
	room, faults, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	tailor, more := derive.NewTailor(room)
	faults = append(faults, more...)
	bf, known := room.BuildNamed(build)
	if !known {
		t.Fatalf("there is no build %s", build)
	}
	b, own := room.ReadBuild(bf)
	faults = append(faults, own...)
	g := tailor.Derive(b)
	if round >= 0 {
		g = tailor.DeriveAt(b, round)
	}
	figures = map[string]printed{}
	add := func(list []figure.Figure) {
		for _, f := range list {
			if _, twice := figures[f.ID]; twice && !strings.HasPrefix(f.ID, "total.") {
				t.Errorf("the program has two figures %s", f.ID)
			}
			figures[f.ID] = print(f)
		}
	}
	add(g.Figures())
	var private []figure.Figure
	for _, p := range g.PrivateFigures() {
		private = append(private, p.Open(record.ToTheMaker))
	}
	add(private)
	look := tailor.Timing(g, order.Standing{Now: time.Date(2026, 9, 1, 9, 0, 0, 0, time.UTC)})
	add(look.Overall())
	if !look.More && len(look.Chain) > 0 {
		var names []string
		for _, s := range look.Chain {
			names = append(names, s.ID)
		}
		figures["order.chain"] = printed{words: strings.Join(names, " → ")}
	}
	for _, part := range tailor.Content(g).Whole {
		if !part.Other {
			figures["content."+strings.ReplaceAll(fibreName(part), " ", "-")] = print(part.Percent)
		}
	}
	return figures, faults
}

func fibreName(p label.FibrePart) string {
	if f, known := trade.FibreNamed(p.Name); known {
		return f.Name
	}
	return p.Name
}

func print(f figure.Figure) printed {
	v := f.Value
	switch {
	case !v.Known():
		return printed{why: v.Why}
	case v.Money != nil:
		return printed{money: v.Money.Amount.Rat(), unit: v.Money.Currency}
	case v.Moment != nil:
		return printed{words: v.Moment.Format("2006-01-02T15:04")}
	}
	return printed{value: v.Number, unit: v.Unit.Symbol()}
}

package paper

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// Check looks for what would make a document wrong: no title or language,
// symbols without words, pictures without an alternative, drawings with sizes
// that are none. All that is wrong comes in one error.
func (d Document) Check() error {
	var wrong []error
	if strings.TrimSpace(d.Title) == "" {
		wrong = append(wrong, errors.New("the document has no title"))
	}
	if strings.TrimSpace(d.Language) == "" {
		wrong = append(wrong, fmt.Errorf("%q has no language", d.Title))
	}
	if d.TextSize != 0 && !(d.TextSize >= 6 && d.TextSize <= 24) {
		wrong = append(wrong, fmt.Errorf("%q: text of %v points cannot be read", d.Title, d.TextSize))
	}
	for _, b := range d.Blocks {
		wrong = append(wrong, checkBlock(b))
	}
	return errors.Join(wrong...)
}

func checkBlock(b Block) error {
	switch b := b.(type) {
	case Heading:
		if b.Level < 1 || b.Level > 3 {
			return fmt.Errorf("heading %q: its level must be 1, 2 or 3, not %d", b.Text, b.Level)
		}
		if strings.TrimSpace(b.Text) == "" {
			return errors.New("a heading has no words")
		}
	case Table:
		return checkTable(b)
	case Symbols:
		return checkSymbols(b)
	case Sketch:
		return b.Drawing.check()
	case Columns:
		return checkColumns(b)
	case Picture:
		if strings.TrimSpace(b.Alt) == "" {
			return errors.New("a picture does not say what it shows")
		}
		if !(b.Wide >= 0) || !(b.High >= 0) {
			return fmt.Errorf("the picture %q has no size", b.Alt)
		}
		return b.checkKind()
	case QR:
		_, err := b.matrix()
		return err
	}
	return nil
}

func checkTable(t Table) error {
	if len(t.Columns) == 0 {
		return fmt.Errorf("table %q has no columns", t.Caption)
	}
	for i, row := range t.Rows {
		if len(row) > len(t.Columns) {
			return fmt.Errorf("table %q, row %d: %d cells for %d columns", t.Caption, i+1, len(row), len(t.Columns))
		}
	}
	for _, c := range t.Columns {
		if !(c.Share >= 0) || math.IsInf(c.Share, 0) {
			return fmt.Errorf("table %q: the width of column %q is no share", t.Caption, c.Head)
		}
	}
	return nil
}

func checkSymbols(s Symbols) error {
	var wrong []error
	for _, item := range s.Items {
		if strings.TrimSpace(item.Words) == "" {
			wrong = append(wrong, errors.New("a symbol has no words beside it"))
		}
		if len(item.Drawing.Marks) > 0 {
			wrong = append(wrong, item.Drawing.check())
		}
	}
	return errors.Join(wrong...)
}

func checkColumns(c Columns) error {
	var wrong []error
	if c.Shares != nil && len(c.Shares) != len(c.Blocks) {
		wrong = append(wrong, fmt.Errorf("%d widths for %d columns", len(c.Shares), len(c.Blocks)))
	}
	for _, s := range c.Shares {
		if !(s > 0) || math.IsInf(s, 0) {
			wrong = append(wrong, fmt.Errorf("a column's width must be more than nothing, not %v", s))
		}
	}
	for _, column := range c.Blocks {
		for _, b := range column {
			if _, bad := b.(PageBreak); bad {
				wrong = append(wrong, errors.New("a new page cannot begin within a column"))
			}
			wrong = append(wrong, checkBlock(b))
		}
	}
	return errors.Join(wrong...)
}

// check looks at a drawing's size and numbers.
func (d Drawing) check() error {
	if !(d.Wide > 0) || !(d.High > 0) || math.IsInf(d.Wide, 0) || math.IsInf(d.High, 0) {
		return fmt.Errorf("the drawing %q has no size", d.Alt)
	}
	for _, m := range d.Marks {
		switch m := m.(type) {
		case Path:
			for _, s := range m.Steps {
				if !s.C1.finite() || !s.C2.finite() || !s.To.finite() {
					return fmt.Errorf("the drawing %q has a line to nowhere", d.Alt)
				}
			}
		case Label:
			if !m.At.finite() || !(m.Size > 0) {
				return fmt.Errorf("the drawing %q has the words %q without a place or size", d.Alt, m.Text)
			}
		}
	}
	return nil
}

func (p Point) finite() bool {
	return !math.IsNaN(p.X) && !math.IsInf(p.X, 0) && !math.IsNaN(p.Y) && !math.IsInf(p.Y, 0)
}

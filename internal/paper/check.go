package paper

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"hembook/internal/drawing"
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
		return checkDrawing(b.Drawing)
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
		if item.Drawing != nil {
			wrong = append(wrong, checkDrawing(item.Drawing))
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

// checkDrawing looks at a drawing's size and numbers.
func checkDrawing(d *drawing.Drawing) error {
	switch {
	case d == nil || !(d.Wide() > 0) || !(d.High() > 0):
		return fmt.Errorf("the drawing %q has no size", titleOf(d))
	case !d.Finite():
		return fmt.Errorf("the drawing %q has a line to nowhere, or words without a place", d.Title)
	}
	return nil
}

func titleOf(d *drawing.Drawing) string {
	if d == nil {
		return ""
	}
	return d.Title
}

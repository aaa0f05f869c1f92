package press

import (
	"bytes"
	"slices"

	"hembook/internal/document"
	"hembook/internal/figure"
)

// A figure that a text names is written when the text is: before that its name stands
// between two of these, which nothing that is read has.
const figureMark = 0x02

func sealed(dst []byte, name string) []byte {
	return append(append(append(dst, figureMark), name...), figureMark)
}

// figuresOf are the figures of the garment whose page is written; nil where it is that of none.
func figuresOf(h *document.HTML) func() []*figure.Figure {
	if h.Lineage == nil {
		return nil
	}
	return h.Lineage.Figures
}

// figureNamed is the figure of that name of the garment whose page is written; nil where it has none.
func figureNamed(h *document.HTML, name string) *figure.Figure {
	if h.Lineage == nil {
		return nil
	}
	all := h.Lineage.Figures()
	if i := slices.IndexFunc(all, func(f *figure.Figure) bool { return f.ID == name }); i >= 0 {
		return all[i]
	}
	return nil
}

// setFigures sets the figures named in what was written from there on.
func setFigures(h *document.HTML, from int) {
	if bytes.IndexByte(h.Out[from:], figureMark) < 0 {
		return
	}
	parts := bytes.Split(bytes.Clone(h.Out[from:]), []byte{figureMark})
	h.Out = h.Out[:from]
	for i, part := range parts {
		if f := figureNamed(h, string(part)); i%2 == 1 && f != nil {
			h.FigureLed(f)
		} else {
			h.Put(string(part))
		}
	}
}

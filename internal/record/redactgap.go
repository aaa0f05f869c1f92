package record

import (
	"bytes"

	"hembook/internal/record/extent"
)

// remarks finds the remarks between two words; false where something stands
// there that is not a mark, white space, an anchor, a tag or a remark: then an
// end was not found where it is.
func (c *scissors) remarks(gap extent.Span) (list []extent.Span, ok bool) {
	for at := gap.From; at < gap.To; {
		next := c.pastGapPart(at)
		if next <= at || next > gap.To {
			return nil, false
		}
		if c.Bytes[at] == '#' {
			list = append(list, extent.Span{From: at, To: next})
		}
		at = next
	}
	return list, true
}

// pastGapPart is where the part of a gap that begins at an offset ends; at
// itself where none does.
func (c *scissors) pastGapPart(at int) int {
	if n := extent.BreakAt(c.Bytes, at); n > 0 {
		return at + n
	}
	switch b := c.Bytes[at]; {
	case b == '#':
		return c.RestOfLine(at)
	case extent.IsBlank(b), extent.IsFlowMark(b), b == '-', b == '?', b == ':':
		return at + 1
	case b == '&', b == '!':
		return c.pastProperty(at)
	case b == '%' && c.beginsLine(at):
		return c.RestOfLine(at)
	case b == '.' && c.beginsLine(at) && bytes.HasPrefix(c.Bytes[at:], []byte("...")):
		return at + 3
	}
	return at
}

func (c *scissors) beginsLine(at int) bool { return c.Lines[c.LineOf(at)-1] == at }

// pastProperty goes past an anchor or a tag.
func (c *scissors) pastProperty(at int) int {
	if bytes.HasPrefix(c.Bytes[at:], []byte("!<")) {
		for at < len(c.Bytes) && c.Bytes[at] != '>' {
			at++
		}
		return min(at+1, len(c.Bytes))
	}
	for at < len(c.Bytes) && !extent.IsBlank(c.Bytes[at]) && !extent.IsFlowMark(c.Bytes[at]) && extent.BreakAt(c.Bytes, at) == 0 {
		at++
	}
	return at
}

// colon finds the colon between a key and its value; -1 where there is none.
func (c *scissors) colon(gap extent.Span) int {
	for at := gap.From; at < gap.To; {
		if c.Bytes[at] == ':' {
			return at
		}
		next := c.pastGapPart(at)
		if next <= at {
			return -1
		}
		at = next
	}
	return -1
}

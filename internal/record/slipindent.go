package record

import (
	"hembook/internal/fault"
	"hembook/internal/say"
	"strconv"
	"strings"
)

// A writtenLine is a line of a part that says something.
type writtenLine struct {
	line   int    // from 1
	indent int    // spaces before it
	word   string // the word before its colon, or all of it
	dash   bool
	keyed  bool // it has a word with a colon
	opens  bool // its value stands below it
}

// rowsOf are the rows of a part, without what stands in blocks, brackets and quotes
// over several lines.
func rowsOf(lines []string) []writtenLine {
	var out []writtenLine
	below := -1 // the words of a block are indented more than so many spaces
	depth := 0
	for i, l := range lines {
		body, _ := cutRemark(strings.TrimLeft(l, " "))
		indent := indentOf(l)
		if body == "" || strings.HasPrefix(body, "#") {
			continue
		}
		if below >= 0 && indent > below {
			continue
		}
		below = -1
		if depth > 0 {
			depth += brackets(body)
			continue
		}
		depth = max(0, brackets(body))
		r := writtenLine{line: i + 1, indent: indent}
		if body == "-" || strings.HasPrefix(body, "- ") {
			r.dash = true
			body = strings.TrimLeft(body[1:], " ")
		}
		word, value, keyed := strings.Cut(body, ": ")
		if cut, ok := strings.CutSuffix(body, ":"); ok && !keyed {
			word, keyed = cut, true
		}
		r.word, r.keyed = word, keyed
		r.opens = keyed && value == "" || body == ""
		if v := strings.TrimSpace(value); v != "" && (v[0] == '|' || v[0] == '>') {
			below = indent
		}
		out = append(out, r)
	}
	return out
}

// brackets is how many more brackets open than close.
func brackets(body string) int {
	n := 0
	for _, r := range body {
		switch r {
		case '{', '[':
			n++
		case '}', ']':
			n--
		}
	}
	return n
}

// misfits finds rows that stand otherwise than their neighbours, with where they may
// have been meant to stand.
func misfits(lines []string) []slip {
	rows := rowsOf(lines)
	var out []slip
	var open []writtenLine // the rows that the next may stand in line with, the outermost first
	for i, r := range rows {
		column := r.indent
		for len(open) > 0 && open[len(open)-1].indent > column {
			above := open[len(open)-1]
			open = open[:len(open)-1]
			if len(open) > 0 && open[len(open)-1].indent < column {
				out = append(out, stand(lines, rows, i, above), stand(lines, rows, i, open[len(open)-1]))
			}
		}
		switch top := len(open) - 1; {
		case top >= 0 && open[top].indent == column:
			if open[top].dash != r.dash {
				out = append(out, otherDash(lines, rows, i)...)
			}
		case i > 0 && !rows[i-1].opens && column > rows[i-1].indent+dashWide(rows[i-1]):
			if !rows[i-1].keyed {
				continue // the one above lacks its colon, which is told there
			}
			out = append(out, stand(lines, rows, i, inLine(rows[i-1])), stand(lines, rows, i-1, r))
		}
		if top := len(open) - 1; top < 0 || open[top].indent < column {
			open = append(open, r)
		} else {
			open[top] = r
		}
		if r.dash && r.keyed {
			open = append(open, inLine(r))
		}
	}
	return out
}

func dashWide(r writtenLine) int {
	if r.dash {
		return 2
	}
	return 0
}

// inLine is the word of a row, behind its dash where it has one.
func inLine(r writtenLine) writtenLine {
	r.indent += dashWide(r)
	r.dash = false
	return r
}

// stand puts a row in line with another; what belongs to it goes along.
func stand(lines []string, rows []writtenLine, i int, with writtenLine) slip {
	r := rows[i]
	by := with.indent - r.indent
	s := slip{line: r.line,
		what:   say.Of("record.stands-in-its-neighbour", say.Quoted(fault.Shorten(r.word)), spaces(r.indent), say.Quoted(fault.Shorten(with.word)), with.indent),
		beside: with.line}
	s.hint = say.Of("record.put-so-many-before-it", spaces(with.indent), "%d", strings.ReplaceAll(strconv.Quote(fault.Shorten(with.word)), "%", "%%"))
	for k := i; k < len(rows) && (k == i || by > 0 && rows[k].indent > r.indent && rows[i].opens); k++ {
		l := lines[rows[k].line-1]
		s.swaps = append(s.swaps, swap{rows[k].line, strings.Repeat(" ", rows[k].indent+by) + strings.TrimLeft(l, " ")})
	}
	return s
}

// otherDash puts a dash before a word that stands in line with dashes, or takes those
// away that stand in line with words.
func otherDash(lines []string, rows []writtenLine, i int) []slip {
	r := rows[i]
	var swaps []swap
	first := r
	for k := i - 1; k >= 0 && rows[k].indent >= r.indent; k-- {
		if rows[k].indent == r.indent && rows[k].dash != r.dash {
			first = rows[k]
			l := lines[first.line-1]
			if first.dash {
				swaps = append(swaps, swap{first.line, strings.Repeat(" ", r.indent) + strings.TrimLeft(l, " -")})
			}
		}
	}
	if !r.dash {
		l := lines[r.line-1]
		return []slip{
			slipAt(first.line, say.Of("record.a-dash-before-and-none-before", fault.Shorten(first.word), fault.Shorten(r.word)), say.Of("record.leave-the-dash-out"), swaps...),
			slipAt(r.line, say.Of("record.no-dash-before", fault.Shorten(r.word)), say.Of("record.write-7", fault.Shorten(r.word)), swap{r.line, strings.Repeat(" ", r.indent) + "- " + strings.TrimLeft(l, " ")}),
		}
	}
	l := lines[r.line-1]
	return []slip{slipAt(r.line, say.Of("record.a-dash-before-and-none-before", fault.Shorten(r.word), fault.Shorten(first.word)), say.Of("record.leave-the-dash-out"), swap{r.line, strings.Repeat(" ", r.indent) + strings.TrimLeft(l, " -")})}
}

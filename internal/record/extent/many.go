package extent

import "bytes"

// MostMarks bounds the marks of YAML in one file, before a tree is made of it:
// a value takes about 900 bytes there. A record written by hand has a few
// thousand, of an outline with many points three for each.
const MostMarks = 100_000

// TooMany finds the line on which a file has one mark more than is read: a
// comma, an opening bracket, a colon, or a hyphen or question mark that begins
// an entry. Each value needs one of them at least, but for the first.
func TooMany(text []byte) (line int32, found bool) {
	marks, line := countMarks(text, MostMarks)
	return line, marks > MostMarks
}

// countMarks counts up to one mark more than most, and says on which line it
// came there. A tree has at most three nodes for each mark, and two more: a
// group begins with its first word and its value, a list with its first entry.
func countMarks(text []byte, most int) (marks int, line int32) {
	line = 1
	for i, c := range text {
		switch c {
		case '\n':
			line++
			continue
		case ',', '[', '{', ':':
			marks++
		case '-', '?':
			if i+1 == len(text) || bytes.IndexByte([]byte(" \t\r\n"), text[i+1]) >= 0 {
				marks++
			}
		}
		if marks > most {
			break
		}
	}
	return marks, line
}

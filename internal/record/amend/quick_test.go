package amend

import (
	"fmt"
	"strings"
	"testing"
)

func TestQuick(t *testing.T) {
	e := Group(Field{"at", Figure("2026-08-05 14:10")}, Field{"did", Words("cut-skirt")}, Field{"for", Figure("48 min")})
	m := Group(Field{"at", Figure("2026-08-05")}, Field{"note", Words("two\nlines: *x")})
	for _, s := range []string{"name: x\n", "name: x", "name: x\njournal:\n", "name: x\njournal: []  # c\nz: 1\n", "a: |\n  x\njournal:   # c\n  # own\n\nz: 1\n", "journal:\n- at: x\n  n: |\n   f\n\n- at: y\n\n# foo\nz: 1", "journal: [\n  {a: b}, # x\n  {c: 'it''s'} # y\n]\n", "journal: [a, b]\r\n", "journal:\r\n    -   {at: x, note: \"é\"}\r\n    # hm\r\n# next\r\nz: 1\r\n", "{a: 1, journal: []}\n", "journal: ~\n", "journal: &j # c\nb: 1\n", "a: b\n...\n", "a: b\n\nc:\n  d: |+\n    x\n\n"} {
		for _, v := range []Value{e, m} {
			out, err := Append([]byte(s), At("journal"), v)
			fmt.Printf("---- %q %v\n%s|\n", s, err, strings.ReplaceAll(string(out), "\r", "␍"))
		}
	}
	for _, s := range []string{"measured: {waist: 1, hem: 2}\n", "measured:\n", "measured:\n  waist: 712   # c\nz: 1\n", "name: x\n\nb: c", "measured: {waist}\n", "measured: {waist: , b: 1}\n", "measured: {}\n", "measured:\n  # c\nz: 1\n", "measured:\n    waist: |  # c\n      a\n      b\n\nz: 1\n", "measured: {waist: \"a\nb\"}", "measured:\n  waist: &w 12\nb: *w\n", "measured:\n  waist: &w 12\n"} {
		for _, v := range []Value{Figure("713"), Words("it's 1: x"), Words("a\nb\n")} {
			out, err := Set([]byte(s), At("measured", "waist"), v)
			fmt.Printf("---- %q %v\n%s|\n", s, err, strings.ReplaceAll(string(out), "\r", "␍"))
		}
	}
}

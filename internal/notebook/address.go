package notebook

import (
	"strconv"
	"strings"

	"github.com/gosimple/slug"

	"hembook/internal/disk"
)

// An Address is where a page or file lies in the notebook: slash-separated,
// from the notebook's own folder.
type Address string

// A Link is an address with the name it is shown by.
type Link struct {
	Address Address
	Name    string
}

// To is the way from the page at a to the file at b, as it is written in a
// link. It never begins with a slash, so that the notebook may lie anywhere.
func (a Address) To(b Address) string {
	from, to := string(a), string(b)
	for {
		i, j := strings.IndexByte(from, '/'), strings.IndexByte(to, '/')
		if i < 0 || i != j || from[:i] != to[:j] {
			break
		}
		from, to = from[i+1:], to[j+1:]
	}
	return strings.Repeat("../", strings.Count(from, "/")) + to
}

// Root is the way from the page to the notebook's folder: "", "../" …
func (a Address) Root() string { return strings.Repeat("../", strings.Count(string(a), "/")) }

// namer hands out addresses that are unique in their folder whatever the
// capitals, because many file systems do not tell those apart.
type namer map[string]bool

func (n namer) address(folder, name string) Address {
	base := slugged(name)
	s := base
	for k := 2; n[s] || s == "index" || disk.Reserved(s); k++ {
		s = base + "-" + strconv.Itoa(k)
	}
	n[s] = true
	return Address(folder + "/" + s + ".html")
}

// slugged makes a name safe for an address on every file system.
func slugged(name string) string {
	s := name
	if !plainSlug(s) {
		s = slug.Make(s)
	}
	const most = 80
	if len(s) > most {
		s = strings.Trim(s[:most], "-")
	}
	if s == "" {
		return "unnamed"
	}
	return s
}

func plainSlug(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		if !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-' && i > 0 && s[i-1] != '-' && i < len(s)-1) {
			return false
		}
	}
	return s != ""
}

// recordAddress is where the record of the build at a stands.
func recordAddress(a Address) Address {
	return "records/" + a[strings.LastIndexByte(string(a), '/')+1:]
}

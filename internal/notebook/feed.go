package notebook

import (
	"cmp"
	"slices"
)

// The addresses of the files that are for programs that read the web. They are
// written where the workroom names its public address.
const (
	FeedAddress    Address = "feed.xml"
	SitemapAddress Address = "sitemap.xml"
	RobotsAddress  Address = "robots.txt"
	// What a browser keeps a served notebook by, to be read without a line.
	KeptAddress   Address = "notebook.webmanifest"
	KeeperAddress Address = "offline.js"
)

// mostNews is how many builds the feed tells of.
const mostNews = 30

// News are the builds whose records were last written to, the latest first.
// Those whose records hold no date are left out.
func (s *Gathered) News() []*BuildLine {
	var out []*BuildLine
	for _, b := range s.builds {
		if !b.Touched.IsZero() {
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(x, y *BuildLine) int {
		return cmp.Or(y.Touched.Compare(x.Touched), cmp.Compare(x.Address, y.Address))
	})
	return out[:min(len(out), mostNews)]
}

// Touched is when each build's record was last written to, by its address.
func (s *Gathered) Touched() map[Address]string {
	out := map[Address]string{}
	for _, b := range s.builds {
		if !b.Touched.IsZero() {
			out[b.Address] = b.Touched.Format("2006-01-02")
		}
	}
	return out
}

// Newest is the number in the room of the build that was begun last; -1 where
// there is none.
func (s *Gathered) Newest() int {
	if len(s.builds) == 0 {
		return -1
	}
	return slices.IndexFunc(s.book.builds, func(l Link) bool { return l.Address == s.builds[0].Address })
}

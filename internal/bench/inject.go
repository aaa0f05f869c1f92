package bench

import (
	"bytes"
	"fmt"
	"html"
	"regexp"
	"slices"
	"strings"
)

// withScript returns a page with the preview's script in its head, and the
// content security policy to be sent with it. The page's own policy stands in
// it and forbids what the script needs; so it is taken out and sent with that
// added. The file on the disk stays as it is.
func withScript(page []byte, version string) ([]byte, string) {
	head := 0
	if at := headEnd.FindIndex(page[:min(len(page), 64<<10)]); at != nil {
		head = at[0]
	}
	policy := ""
	before := policyMeta.ReplaceAllFunc(page[:head], func(meta []byte) []byte {
		if m := policyContent.FindSubmatch(meta); m != nil && policy == "" {
			policy = html.UnescapeString(string(m[1]) + string(m[2]))
		}
		return nil
	})
	var out bytes.Buffer
	out.Grow(len(page) + 128)
	out.Write(before)
	fmt.Fprintf(&out, "<script defer src=%q data-version=%q></script>\n", scriptPath, version)
	out.Write(page[head:])
	return out.Bytes(), widened(policy)
}

var (
	headEnd       = regexp.MustCompile(`(?i)</head>`)
	policyMeta    = regexp.MustCompile(`(?i)<meta\s[^>]*http-equiv\s*=\s*["']?content-security-policy["']?[^>]*>`)
	policyContent = regexp.MustCompile(`(?i)\scontent\s*=\s*(?:"([^"]*)"|'([^']*)')`)
)

// widened is a policy (W3C Content Security Policy Level 3) that also lets the
// preview's script be loaded and listen to the preview's server.
func widened(policy string) string {
	var names []string
	sources := map[string][]string{}
	for part := range strings.SplitSeq(policy, ";") {
		words := strings.Fields(part)
		if len(words) == 0 {
			continue
		}
		name := strings.ToLower(words[0])
		if _, twice := sources[name]; !twice { // the first of a name holds
			names = append(names, name)
			sources[name] = words[1:]
		}
	}
	for _, name := range []string{"script-src", "connect-src"} {
		own, said := sources[name]
		fallback, limits := sources["default-src"]
		switch {
		case !said && !limits:
			continue // nothing forbids it
		case !said:
			own = fallback
			names = append(names, name)
		}
		own = slices.DeleteFunc(slices.Clone(own), func(s string) bool { return s == "'none'" })
		if !slices.Contains(own, "'self'") {
			own = append(own, "'self'")
		}
		sources[name] = own
	}
	if _, said := sources["frame-ancestors"]; !said {
		names = append(names, "frame-ancestors")
		sources["frame-ancestors"] = []string{"'none'"}
	}
	for i, name := range names {
		names[i] = strings.Join(append([]string{name}, sources[name]...), " ")
	}
	return strings.Join(names, "; ")
}

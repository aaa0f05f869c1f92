package bench

import (
	"strings"
	"testing"
)

func TestWithScript(t *testing.T) {
	const tag = "<script defer src=\"/.preview/script.js\" data-version=\"v-1\"></script>\n"
	for _, c := range []struct{ name, page, want, policy string }{
		{
			"the usual frame",
			`<head><meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'"><title>x</title></head><body>`,
			`<head><title>x</title>` + tag + `</head><body>`,
			"default-src 'none'; script-src 'self'; connect-src 'self'; frame-ancestors 'none'",
		},
		{
			"without scripts, in another order and case",
			`<HEAD><META CONTENT='default-src &#39;none&#39;' HTTP-EQUIV=Content-Security-Policy /></HEAD>`,
			`<HEAD>` + tag + `</HEAD>`,
			"default-src 'none'; script-src 'self'; connect-src 'self'; frame-ancestors 'none'",
		},
		{
			"a policy of its own",
			`<head><meta http-equiv="content-security-policy" content="connect-src 'none'; frame-ancestors 'self'; img-src *"></head>`,
			`<head>` + tag + `</head>`,
			"connect-src 'self'; frame-ancestors 'self'; img-src *",
		},
		{"no policy", `<head></head>`, `<head>` + tag + `</head>`, "frame-ancestors 'none'"},
		{"no head", `<p>words`, tag + `<p>words`, "frame-ancestors 'none'"},
		{
			"a policy in the words of a page stays",
			`<head></head><pre><meta http-equiv="Content-Security-Policy" content="x"></pre>`,
			`<head>` + tag + `</head><pre><meta http-equiv="Content-Security-Policy" content="x"></pre>`,
			"frame-ancestors 'none'",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			page, policy := withScript([]byte(c.page), "v-1")
			if string(page) != c.want || policy != c.policy {
				t.Errorf("got\n%s\n%s\nwant\n%s\n%s", page, policy, c.want, c.policy)
			}
		})
	}
}

// Whatever a page holds, everything but its policy is still there, in order.
func FuzzWithScript(f *testing.F) {
	f.Add(`<head><meta http-equiv="Content-Security-Policy" content="default-src 'none'"></head><body>`)
	f.Add("<p>")
	f.Fuzz(func(t *testing.T, page string) {
		out, policy := withScript([]byte(page), "v")
		if strings.ContainsAny(policy, "\r\n") {
			t.Errorf("a policy of two lines: %q", policy)
		}
		before, after, ok := strings.Cut(string(out), `<script defer src="/.preview/script.js" data-version="v"></script>`+"\n")
		if !ok || !strings.HasSuffix(page, after) || len(before) > len(page)-len(after) {
			t.Errorf("%q became %q", page, out)
		}
	})
}

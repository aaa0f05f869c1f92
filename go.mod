module hembook

go 1.26.0

// What the program is made of.
require (
	codeberg.org/go-pdf/fpdf v0.12.0 // sheets and full-size patterns as PDF
	github.com/agnivade/levenshtein v1.2.2 // what a mistyped word was meant to be
	github.com/alecthomas/chroma/v2 v2.27.0 // highlighting of code in pages
	github.com/bep/imagemeta v1.0.1 // which way up a photograph was taken
	github.com/fsnotify/fsnotify v1.10.1 // the preview notices a saved record
	github.com/go-fonts/liberation v0.3.3 // the faces a PDF carries in itself
	github.com/gosimple/slug v1.15.0 // addresses of pages from names in any script
	github.com/peterstace/simplefeatures v0.56.0 // union of polygons; later versions gave wrong areas, do not raise
	github.com/shopspring/decimal v1.6.0 // money, never as a float
	github.com/spf13/cobra v1.10.2 // commands, help, completion
	github.com/tdewolff/minify/v2 v2.24.25 // smaller style sheets
	github.com/yuin/goldmark v1.8.7 // Markdown
	golang.org/x/image v0.47.0 // scaling of pictures; reading of WebP
	golang.org/x/sync v0.25.0 // as many pictures at once as memory allows
	golang.org/x/sys v0.50.0 // exchanging two folders in one step; file locks
	golang.org/x/term v0.48.0 // whether a terminal is listening
	golang.org/x/text v0.44.0 // sorting as people do
	gopkg.in/yaml.v3 v3.0.1 // records
	rsc.io/qr v0.2.0 // codes that a telephone reads
)

// What only tests need.
require (
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	github.com/google/go-cmp v0.7.0
	github.com/rogpeppe/go-internal v1.16.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	github.com/srwiley/oksvg v0.0.0-20221011165216-be6e8873101c
	github.com/srwiley/rasterx v0.0.0-20220730225603-2ab79fcdd4ef
	go.uber.org/goleak v1.3.0
	pgregory.net/rapid v1.3.0
)

require (
	github.com/spf13/pflag v1.0.9
	golang.org/x/tools v0.52.0
)

require (
	github.com/dlclark/regexp2/v2 v2.2.1 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/gosimple/unidecode v1.0.1 // indirect
	github.com/inconshreveable/mousetrap v1.1.0 // indirect
	github.com/stretchr/testify v1.11.1 // indirect
	github.com/tdewolff/parse/v2 v2.8.20 // indirect
	golang.org/x/net v0.61.0 // indirect
)

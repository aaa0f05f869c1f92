module hembook

go 1.26.0

require (
	codeberg.org/go-pdf/fpdf v0.12.0 // indirect
	github.com/agnivade/levenshtein v1.2.2 // indirect
	github.com/alecthomas/chroma/v2 v2.27.0 // indirect
	github.com/bahlo/generic-list-go v0.2.0 // indirect
	github.com/bep/imagemeta v1.0.1 // indirect
	github.com/buger/jsonparser v1.1.2 // indirect
	github.com/chromedp/cdproto v0.159.0 // indirect
	github.com/chromedp/chromedp v0.23.0 // indirect
	github.com/dlclark/regexp2/v2 v2.2.1 // indirect
	github.com/fsnotify/fsnotify v1.10.1 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/gosimple/slug v1.15.0 // indirect
	github.com/gosimple/unidecode v1.0.1 // indirect
	github.com/inconshreveable/mousetrap v1.1.0 // indirect
	github.com/invopop/jsonschema v0.14.0 // indirect
	github.com/pb33f/ordered-map/v2 v2.3.1 // indirect
	github.com/peterstace/simplefeatures v0.56.0 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3 // indirect
	github.com/shopspring/decimal v1.6.0 // indirect
	github.com/sosodev/duration v1.4.0 // indirect
	github.com/spf13/cobra v1.10.2 // indirect
	github.com/spf13/pflag v1.0.9 // indirect
	github.com/tdewolff/minify/v2 v2.24.25 // indirect
	github.com/tdewolff/parse/v2 v2.8.20 // indirect
	github.com/yuin/goldmark v1.8.7 // indirect
	go.uber.org/goleak v1.3.0 // indirect
	go.yaml.in/yaml/v4 v4.0.0-rc.2 // indirect
	golang.org/x/image v0.47.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/term v0.48.0 // indirect
	golang.org/x/text v0.44.0 // indirect
	golang.org/x/tools v0.52.0 // indirect
	gopkg.in/yaml.v3 v3.0.1 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)

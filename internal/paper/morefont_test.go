package paper

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"hembook/internal/document"
)

// japanese finds a TrueType font with kana and kanji on this machine.
func japanese(t *testing.T) []byte {
	t.Helper()
	file, err := exec.Command("fc-match", "-f", "%{file}", ":lang=ja:fontformat=TrueType").Output()
	if err == nil {
		data, err := os.ReadFile(string(file))
		if left, bad := Unset(kimono(), Options{MoreFont: data}); err == nil && bad == nil && len(left) == 0 {
			return data
		}
	}
	t.Skip("no TrueType font with kanji is installed")
	return nil
}

func kimono() document.Document {
	return document.Document{Title: "お手入れ", Language: "ja", Blocks: []document.Block{
		document.Heading{Level: 1, Words: "お手入れとサイズ"},
		para(strings.Repeat("この服は手洗いしてください。水温は30 °C以下。漂白剤は使えません。", 12)),
		document.Table{Columns: []document.Column{{Head: "部位"}, {Head: "寸法"}}, Rows: []document.TableRow{row("胸囲", "940 mm")}},
	}}
}

// TestMoreFont: with a font given, letters the built-in faces lack are set,
// embedded and can be copied; without one each is a □, and told of.
func TestMoreFont(t *testing.T) {
	d := kimono()
	without, err := Unset(d, Options{})
	if err != nil || len(without) < 30 {
		t.Fatalf("only %d letters are said to be missing: %v", len(without), err)
	}
	opt := Options{MoreFont: japanese(t)}
	data, err := PDF(document.Alone(d), opt)
	if err != nil {
		t.Fatal(err)
	}
	look(t, "japanese.pdf", data)
	page, err := document.OneFile(document.Alone(d))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := squeeze(pdfWords(t, data, d)), squeeze(htmlWords(string(page))); got != want {
		t.Errorf("the PDF says\n%s\nthe HTML says\n%s", got, want)
	}
	if len(data) > 200_000 {
		t.Errorf("%d bytes: the font is not cut down to its letters", len(data))
	}
}

// TestMissingLettersAreSeen: a letter no face has is never left out.
func TestMissingLettersAreSeen(t *testing.T) {
	d := document.Document{Title: "t", Language: "ja", Blocks: []document.Block{para("手hem🧵")}}
	data, err := PDF(document.Alone(d), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got := squeeze(pdfWords(t, data, d)); got != "□hem□" {
		t.Errorf("the PDF says %q", got)
	}
}

func TestFontsThatAreNone(t *testing.T) {
	for _, data := range []string{"x", "OTTO and more", strings.Repeat("\x00\x01\x00\x00", 20)} {
		if _, err := PDF(document.Alone(kimono()), Options{MoreFont: []byte(data)}); err == nil || !strings.Contains(err.Error(), "font") {
			t.Errorf("%.6q: %v", data, err)
		}
	}
}

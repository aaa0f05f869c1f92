package capture

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"strconv"

	"hembook/internal/bench"
	"hembook/internal/say"
)

type tokenKey struct{}

func withToken(ctx context.Context, token string) context.Context {
	return context.WithValue(ctx, tokenKey{}, token)
}

func tokenOf(ctx context.Context) string {
	token, _ := ctx.Value(tokenKey{}).(string)
	return token
}

// A badBody is a request's body that cannot be a slip.
type badBody struct {
	status int
	why    string
}

func (b *badBody) Error() string { return b.why }

// readSlip reads a request's form: "now", the phone's clock in milliseconds
// since 1970, "slip" as JSON, and "photo" where the slip says that there is
// one. The three come in this order and nothing else does.
func (s *server) readSlip(w http.ResponseWriter, r *http.Request) (slip phoneSlip, phone int64, photo *bench.Photo, err error) {
	if kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type")); kind != "multipart/form-data" {
		return slip, 0, nil, &badBody{http.StatusUnsupportedMediaType, say.Of("capture.this-cannot-be-read-as-an-entry")}
	}
	r.Body = http.MaxBytesReader(w, r.Body, bench.MostPhoto+mostSlip+4096)
	form, err := r.MultipartReader()
	if err != nil {
		return slip, 0, nil, &badBody{http.StatusBadRequest, say.Of("capture.the-entry-cannot-be-read")}
	}
	text, err := readPart(form, "now", 20)
	if err != nil {
		return slip, 0, nil, err
	}
	if phone, err = strconv.ParseInt(string(text), 10, 64); err != nil || phone < 0 || phone > 1<<43 {
		return slip, 0, nil, &badBody{http.StatusBadRequest, say.Of("capture.the-phones-clock-cannot-be-read")}
	}
	if text, err = readPart(form, "slip", mostSlip); err != nil {
		return slip, 0, nil, err
	}
	if slip, err = readSlip(text); err != nil {
		return slip, 0, nil, err
	}
	if slip.Photo {
		if photo, err = s.readPhoto(form); err != nil {
			return slip, 0, nil, err
		}
	}
	if _, err := form.NextRawPart(); !errors.Is(err, io.EOF) {
		return slip, 0, nil, &badBody{http.StatusBadRequest, say.Of("capture.there-is-more-than-one-entry")}
	}
	return slip, phone, photo, nil
}

// readPart reads the next part of a form, which must have that name.
func readPart(form *multipart.Reader, name string, most int64) ([]byte, error) {
	part, err := form.NextRawPart()
	if err != nil || part.FormName() != name {
		return nil, bodyError(err, say.Of("capture.the-entry-has-no-where-it-should", name))
	}
	text, err := io.ReadAll(io.LimitReader(part, most+1))
	if err != nil {
		return nil, bodyError(err, say.Of("capture.the-entry-ends-too-soon"))
	}
	if int64(len(text)) > most {
		return nil, &badBody{http.StatusRequestEntityTooLarge, say.Of("capture.is-larger-than", name, sizeWords(most))}
	}
	return text, nil
}

func bodyError(err error, why string) error {
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		return &badBody{http.StatusRequestEntityTooLarge, say.Of("capture.it-is-larger-than", sizeWords(bench.MostPhoto))}
	}
	return &badBody{http.StatusBadRequest, why}
}

func sizeWords(n int64) string {
	if n >= 1<<20 {
		return fmt.Sprintf("%d MB", n>>20)
	}
	return say.Of("capture.bytes", n)
}

// readPhoto reads and develops a photograph, one at a time.
func (s *server) readPhoto(form *multipart.Reader) (*bench.Photo, error) {
	data, err := readPart(form, "photo", bench.MostPhoto)
	if err != nil {
		return nil, err
	}
	s.dark.Lock()
	defer s.dark.Unlock()
	p, err := bench.ReadPhoto(bytes.NewReader(data))
	if err != nil {
		return nil, refuse(say.Of("capture.the-photograph", err))
	}
	return &p, nil
}

package capture

import (
	"encoding/json"
	"errors"
	"io/fs"
	"path"
	"time"

	"hembook/internal/bench"
	"hembook/internal/disk"
	"hembook/internal/record/amend"
	"hembook/internal/say"
)

// The ledger is where it is remembered which slips are in the records. It lies
// in the workroom and outlives the program.
const (
	benchFolder  = ".hembook/bench"
	ledgerFolder = benchFolder + "/slips"
	aboutFile    = benchFolder + "/about.txt"
)

// A receipt is what is remembered of one slip. It is written before the record
// is changed, with what tells afterwards whether that came about, and once
// more when the slip is entered.
type receipt struct {
	Sum  string    `json:"sum"`
	Kept bool      `json:"kept"`
	Said string    `json:"said,omitempty"`
	At   time.Time `json:"at"` // when the slip was, by this machine's clock

	// Of a slip that is being entered:
	Begun bool         `json:"begun,omitempty"` // it was begun before; set by reading, and by marking
	Found bool         `json:"found,omitempty"` // Had or Was say what the record held
	Had   int          `json:"had,omitempty"`   // how many of just this the record held before
	Was   string       `json:"was,omitempty"`   // the value that stood there before
	Entry *bench.Entry `json:"entry,omitempty"` // what the clock's time was written as
	Photo string       `json:"photo,omitempty"` // the name claimed for the photograph
}

// receipts are those of one workroom while slips are entered.
type receipts struct{ root *disk.Root }

// withLedger opens the ledger and holds its lock meanwhile, so that two benches
// of one workroom enter one slip at a time.
func withLedger(room string, do func(*receipts) error) error {
	dir, err := disk.OpenRoot(room)
	if err != nil {
		return err
	}
	defer dir.Close()
	if err := makeFolder(dir, ledgerFolder); err != nil {
		return err
	}
	defer disk.BeginErrand(room, bench.DraftsErrand(benchFolder), bench.DraftsErrand(ledgerFolder)).End()
	if _, err := dir.Lstat(aboutFile); errors.Is(err, fs.ErrNotExist) {
		if err := dir.Replace(aboutFile, []byte(say.Of("capture.each-file-in-slips-says-that-an")+"\n"), 0o666); err != nil {
			return err
		}
	}
	root, err := dir.OpenRoot(ledgerFolder)
	if err != nil {
		return err
	}
	defer root.Close()
	var done error
	held := amend.File{Folder: room, Path: aboutFile}.Change(func(text []byte) ([]byte, error) {
		done = do(&receipts{root})
		return text, nil
	})
	return errors.Join(done, held)
}

// makeFolder makes a folder of the bench's, which its owner alone may read.
func makeFolder(room *disk.Root, name string) error {
	if err := room.MkdirAll(path.Dir(benchFolder), 0o777); err != nil {
		return err
	}
	return room.MkdirAll(name, 0o700)
}

// read is a slip's receipt; an empty one where there is none.
func (l *receipts) read(id string) (receipt, error) {
	var r receipt
	text, err := l.root.ReadFile(id + ".json")
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return r, nil
	case err != nil:
		return r, err
	}
	if err := json.Unmarshal(text, &r); err != nil {
		return r, errors.New(say.Of("capture.json-cannot-be-read-look-in-the", ledgerFolder, id))
	}
	return r, nil
}

// mark puts a receipt in place, whole, and waits for the disk.
func (l *receipts) mark(id string, r *receipt) error {
	r.Begun = true
	text, err := json.Marshal(r)
	if err != nil {
		return err
	}
	return l.root.Replace(id+".json", text, 0o600)
}

// keep says that a slip is entered; what only its entering needed is let go.
func (l *receipts) keep(id string, r receipt, said string) error {
	return l.mark(id, &receipt{Sum: r.Sum, At: r.At, Kept: true, Said: said})
}

// forget takes away the receipt of a slip that was refused.
func (l *receipts) forget(id string) {
	l.root.Remove(id + ".json")
	_ = l.root.Sync() // it is gone; the disk may take its time
}

package press

import (
	"errors"

	"hembook/internal/disk"
)

// Exchange puts the folder fresh in the place of old, in one step where the
// system knows one, after which fresh names what old was. Where there is no old
// one it is a plain rename.
func Exchange(fresh, old string, had bool) error {
	if !had {
		return disk.Rename(fresh, old)
	}
	if err := disk.Exchange(fresh, old); !errors.Is(err, disk.ErrNoExchange) {
		return err
	}
	return exchangeByTwo(fresh, old)
}

// oldEnd ends the name of a folder that is being exchanged by renames.
const oldEnd = ".old"

// exchangeByTwo exchanges two folders by renames, for file systems that know
// no exchange in one step. Where the second rename fails the first is undone.
func exchangeByTwo(fresh, old string) error {
	aside := fresh + oldEnd
	if err := disk.Rename(old, aside); err != nil {
		return err
	}
	if err := disk.Rename(fresh, old); err != nil {
		if back := disk.Rename(aside, old); back != nil {
			return back
		}
		return err
	}
	return disk.Rename(aside, fresh)
}

// endByTwo ends an exchange by renames that was cut off: back, where the new
// folder was not in its place yet, else on.
func endByTwo(fresh, old string) {
	aside := fresh + oldEnd
	if !there(old) {
		_ = disk.Rename(aside, old)
		return
	}
	if !there(fresh) {
		_ = disk.Rename(aside, fresh)
	}
}

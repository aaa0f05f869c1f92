package press

import "os"

// exchangeByTwo exchanges two folders by renames, for file systems that know
// no exchange in one step. Where the second rename fails the first is undone.
func exchangeByTwo(fresh, old string) error {
	aside := fresh + ".old"
	if err := os.Rename(old, aside); err != nil {
		return err
	}
	if err := os.Rename(fresh, old); err != nil {
		if back := os.Rename(aside, old); back != nil {
			return back
		}
		return err
	}
	return os.Rename(aside, fresh)
}

//go:build !(linux || darwin)

package disk

func exchange(string, string) error { return ErrNoExchange }

func (r *Root) exchange(string, string) error { return ErrNoExchange }

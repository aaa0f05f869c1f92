package capture

import (
	"errors"
	"net"
	"strings"

	"hembook/internal/say"
)

// HomeAddress is the address by which this machine is reached on its home
// network: asked, where one is given, else the one by which it reaches others.
// Addresses of the open internet are refused.
func HomeAddress(asked string) (net.IP, error) {
	own, err := ownAddresses()
	if err != nil {
		return nil, err
	}
	if asked != "" {
		ip := net.ParseIP(asked)
		switch {
		case ip == nil:
			return nil, errors.New(say.Of("capture.is-no-address-of-a-network-this", say.Quoted(asked), addressWords(own)))
		case !atHome(ip):
			return nil, errors.New(say.Of("capture.is-no-address-of-a-home-network", asked))
		}
		for _, o := range own {
			if o.Equal(ip) {
				return ip, nil
			}
		}
		return nil, errors.New(say.Of("capture.this-computer-has-no-address-it-has", asked, addressWords(own)))
	}
	if out := outward(); out != nil && atHome(out) {
		return out, nil
	}
	for _, o := range own {
		if atHome(o) && o.To4() != nil {
			return o, nil
		}
	}
	return nil, errors.New(say.Of("capture.this-computer-is-in-no-home-network", addressWords(own)))
}

// atHome reports whether an address is one that only a network of one's own
// has: RFC 1918 and RFC 4193.
func atHome(ip net.IP) bool { return ip.IsPrivate() }

// outward is the address from which this machine would reach others. Nothing
// is sent; the address asked for is one kept for examples, RFC 5737.
func outward() net.IP {
	c, err := net.Dial("udp4", "198.51.100.1:9")
	if err != nil {
		return nil
	}
	defer c.Close()
	return c.LocalAddr().(*net.UDPAddr).IP
}

func ownAddresses() ([]net.IP, error) {
	all, err := net.InterfaceAddrs()
	var out []net.IP
	for _, a := range all {
		if n, ok := a.(*net.IPNet); ok && !n.IP.IsLoopback() && !n.IP.IsLinkLocalUnicast() {
			out = append(out, n.IP)
		}
	}
	return out, err
}

func addressWords(list []net.IP) string {
	if len(list) == 0 {
		return say.Of("capture.none-but-its-own")
	}
	words := make([]string, len(list))
	for i, ip := range list {
		words[i] = ip.String()
	}
	return strings.Join(words, ", ")
}

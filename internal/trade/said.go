package trade

import (
	"cmp"
	"strings"

	"hembook/internal/meant"
)

// said are ways in which makers speak of what tables and records call otherwise, by
// the word that is meant (common practice, no source). They are answered and never
// read: "serged" may be a seam overlocked and an edge.
var said = map[string][]string{
	// seam types
	"plain":             {"pressed open", "busted", "busted open", "superimposed", "straight seam", "ordinary"},
	"plain-to-one-side": {"pressed to one side", "one side"},
	"french":            {"double sewn", "sewn twice"},
	"flat-felled":       {"run and fell", "fell", "felled", "jeans seam", "denim seam"},
	"overlocked":        {"serged", "overcast", "zigzagged", "overedged"},
	"hong-kong":         {"bias bound"},
	"enclosed":          {"bagged", "bagged out", "turned out", "facing seam"},
	"two-piece-band":    {"faced waistband", "cuff", "collar stand"},
	"yoke-enclosed":     {"double yoke", "burrito", "bagged yoke"},
	"zip-lapped":        {"zip", "zipper", "lapped zip", "lapped zipper"},
	"zip-invisible":     {"concealed zip", "concealed zipper", "zip concealed", "hidden zip", "invisible zip", "invisible zipper"},
	"zip-fly":           {"fly", "fly front", "trouser fly"},
	"channelled":        {"boning channel", "boned"},

	// finishes
	"double-turned-hem":  {"turned twice", "twice turned", "shirt hem", "machined hem", "topstitched hem", "double fold hem", "double hem"},
	"blind-hem":          {"blind", "blind stitched", "invisible hem"},
	"catch-stitched-hem": {"herringbone", "catch stitch"},
	"rolled-hem":         {"rolled", "pin hem", "baby hem"},
	"bound-edge":         {"bias binding", "binding", "bias bound"},
	"faced":              {"facing", "bias facing"},
	"overlocked-edge":    {"serged", "serged edge", "overcast", "zigzagged", "zigzag"},

	// words of a record
	"lap":   {"overlap", "underlap", "extension", "button extension"},
	"size":  {"diameter", "ligne"},
	"every": {"spacing", "interval", "distance", "distance apart", "apart"},
	"holes": {"buttonholes", "buttonhole", "button holes"},

	// stages and states
	"drafting":  {"pattern", "pattern making", "patternmaking", "drawing", "designing"},
	"mock-up":   {"toile", "muslin", "calico", "trial garment"},
	"fitting":   {"trying on", "try on"},
	"cutting":   {"cutting out", "laying out", "layout"},
	"sewing":    {"stitching", "making up", "making", "construction", "assembly", "in progress"},
	"pressing":  {"ironing", "steaming", "fusing"},
	"finishing": {"hemming", "handwork", "hand sewing"},
	"packing":   {"posting", "shipping", "sending"},
	"planned":   {"idea", "to do", "design"},
	"packed":    {"ready", "done", "finished"},
	"sent":      {"posted", "shipped", "delivered", "given"},
	"set aside": {"paused", "on hold", "abandoned", "waiting"},

	// grain, corners, folds of the cloth
	"along":  {"lengthwise", "lengthways", "straight", "straight grain", "warp"},
	"across": {"crosswise", "crossways", "cross grain", "weft"},
	"bias":   {"diagonal", "on the bias", "on the cross"},
	"mitre":  {"mitred", "mitered", "miter"},
	"mirror": {"mirrored", "folded back"},
	"open":   {"single", "single layer", "flat"},
	"folded": {"double", "on the fold", "in half"},

	// who it is for, who agreed, how it was seen
	"woman":       {"lady", "women", "female", "ladies"},
	"man":         {"gentleman", "men", "male", "gentlemen"},
	"child":       {"kid", "toddler"},
	"baby":        {"infant", "newborn"},
	"anyone":      {"unisex", "everybody", "all"},
	"wearer":      {"client", "customer"},
	"maker":       {"me", "myself"},
	"in person":   {"face to face", "live", "at home"},
	"photographs": {"photos", "pictures"},
	"mm":          {"millimetres", "millimeters"},
	"cm":          {"centimetres", "centimeters"},
	"in":          {"inch", "inches"},

	// words of records
	"pieces":    {"panels", "parts", "pattern", "pattern pieces", "templates"},
	"cloth":     {"fabric", "fabrics", "material", "materials", "textile", "textiles", "cloths"},
	"seams":     {"joins", "joints"},
	"finishes":  {"hems", "edges", "hem finishes", "edge finishes", "necklines"},
	"notions":   {"haberdashery", "trims", "trimmings", "findings", "fastenings", "closures"},
	"work":      {"steps", "operations", "tasks", "order of work", "instructions", "construction", "todo"},
	"fittings":  {"rounds", "alterations", "try-ons", "toiles"},
	"journal":   {"diary", "log", "notes"},
	"name":      {"title", "called"},
	"garment":   {"type", "kind", "category"},
	"state":     {"status", "stage"},
	"begun":     {"start", "started", "date", "begin", "start date"},
	"due":       {"deadline", "finish by", "needed", "needed by", "end date"},
	"units":     {"measurements in", "unit"},
	"measured":  {"finished measurements", "measures"},
	"costs":     {"expenses", "outlay"},
	"allowance": {"seam allowance", "allowances", "sa", "turnings", "turning", "inlay", "seam width"},
	"outline":   {"shape", "path", "points", "draft"},
	"like":      {"same as", "copy", "copy of", "copied from"},
	"cut":       {"quantity", "number", "how many", "pieces"},
	"grain":     {"grainline", "grain line", "direction"},
	"of":        {"from cloth", "fabric", "cloth", "material", "edge", "edges"},
	"join":      {"sew", "joins", "edges", "between", "of"},
	"type":      {"seam type", "finish", "how", "seam", "hem"},
	"stitch":    {"stitches", "stitch type"},
	"depth":     {"width", "height", "deep"},
	"width":     {"depth", "wide", "breadth"},
	"length":    {"long", "height", "depth"},
	"gather":    {"gathers", "gathered", "fullness", "ruffle", "shirr"},
	"ease":      {"eased", "ease in"},
	"takes":     {"time", "duration", "minutes", "hours", "how long"},
	"sews":      {"seam", "seams", "joins"},
	"after":     {"needs", "depends on", "then", "follows"},
	"fibres":    {"fibers", "fibre", "fiber", "composition", "content", "contents", "made of", "fibre content"},
	"weight":    {"gsm", "mass", "heaviness"},
	"shrink":    {"shrinkage", "shrinks"},
	"price":     {"cost", "costs"},
	"on-hand":   {"stock", "have", "on the shelf", "in stock"},
	"colour":    {"color", "shade"},
	"body":      {"measurements", "measures", "sizes"},
	"taken":     {"measured", "date"},
	"note":      {"remark", "comment", "notes", "comments"},
	"saw":       {"seen", "found", "problem", "noticed"},
	"change":    {"changes", "alter", "alterations", "alteration"},
	"fold":      {"on fold", "cut on fold", "on the fold"},
	"darts":     {"dart"},
	"notches":   {"notch"},
	"day":       {"date", "when"},
	"curve":     {"rise", "bow", "arc", "bend", "curved"},
	"upright":   {"vertical"},
	"level":     {"horizontal"},
	"rectangle": {"square", "strip", "oblong"},
	"count":     {"quantity", "number", "how many", "amount", "pieces"},

	// notions
	"drawstring": {"cord", "draw cord"},
	"closure":    {"zip", "zipper", "button", "hook", "snap", "popper", "fastening"},
	"small part": {"bead", "sequin", "pompom"},
	"neck":       {"neckline", "collar"},
	"chest":      {"bust"},
	"sleeve":     {"cuff", "wrist", "arm"},
}

// Meant asks which of the known words one was meant to be; where none is near it
// lists them after the words that begin the list.
func Meant(word string, known []string, begins string) string {
	if k := saidFor(word, known); k != "" {
		return meant.Ask(k)
	}
	return meant.Among(word, known, begins)
}

// Nearest is the known word that one was meant to be, as makers say it or else by
// its letters; empty where none is near.
func Nearest(word string, known []string) string {
	return cmp.Or(saidFor(word, known), meant.Nearest(word, known))
}

// saidFor is the known word that makers call so, whether they say seam or hem with
// it or not; "" where there is none.
func saidFor(word string, known []string) string {
	plain := bareTerm(word)
	for _, k := range known {
		for _, term := range said[k] {
			if bareTerm(term) == plain {
				return k
			}
		}
	}
	return ""
}

func bareTerm(s string) string {
	s = meant.Plain(s)
	for _, kind := range [...]string{"seam", "hem", "edge"} {
		if rest := strings.TrimSuffix(s, kind); rest != "" {
			s = rest
		}
	}
	return s
}

package thread

import (
	"errors"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A misspelling is a way to write a thread that Parse does not read. Its problem
// is blank where the candidates say it all.
type misspelling struct {
	meant   func(text string) []string // what the text may stand for; nil if it is not written so
	problem string
}

var misspellings = [...]misspelling{
	{decimalComma, "a comma in the number; write a point for the decimal"},
	{severalStarts, "a thread of several starts; give its pitch for the lead"},
	{classOrHand, "the tolerance class or the hand stands with it; give the thread alone"},
	{pipeClass, "the tolerance class or the hand stands with it; give the thread alone"},
	{metricInWords, ""},
	{metricWithoutLetter, ""},
	{letterForNought, ""},
	{spaceForHyphen, ""},
	{americanNational, ""},
	{unifiedJ, ""},
	{pipeByOtherLetters, ""},
	{pipeInWords, ""},
}

// mostMisspellings is how many of them one text is freed from.
const mostMisspellings = 3

// unreadable is the error for normalised text that is none of the ways to write
// a thread, with the threads that it may stand for.
func unreadable(given, text string) error {
	near, problem := mayStandFor(text, mostMisspellings)
	if problem == "" {
		problem = "not a designation of a thread"
	}
	return refuse(given, units.ErrSyntax, problem, near...)
}

// mayStandFor returns the designations that text may stand for when up to so
// many misspellings are undone, and the problem of the first.
func mayStandFor(text string, undo int) (near []string, problem string) {
	if undo == 0 {
		return nil, ""
	}
	for _, m := range misspellings {
		meant := m.meant(text)
		for _, text := range meant {
			near = append(near, reading(normalise(text), undo-1)...)
		}
		if meant != nil && (m.problem != "" || near != nil) {
			return near, m.problem
		}
	}
	return nil, ""
}

// reading returns the thread that a text means or may stand for.
func reading(text string, undo int) []string {
	t, known, err := read(text, text)
	var bad *units.ParseError
	switch {
	case !known:
		near, _ := mayStandFor(text, undo)
		return near
	case err == nil:
		return []string{t.name}
	case errors.As(err, &bad):
		return bad.Near
	}
	return nil
}

// decimalComma is "m3x0,5".
func decimalComma(text string) []string {
	for i := len(text) - 2; i > 0; i-- {
		if text[i] == ',' && isDigit(text[i-1]) && isDigit(text[i+1]) {
			return []string{text[:i] + "." + text[i+1:]}
		}
	}
	return nil
}

// severalStarts is "tr 10x3(p1.5) lh" or "m16xph3p1.5".
func severalStarts(text string) []string {
	c := cursor(text)
	letters := c.takeAny("m", "tr")
	c.take(" ")
	diameter := c.anyNumber()
	if letters == "" || diameter == "" || !c.take("x") {
		return nil
	}
	if c.take("ph") {
		c.take(" ")
	}
	lead := c.anyNumber()
	c.take(" ")
	c.take("-")
	c.take("(")
	if lead == "" || !c.take("p") {
		return nil
	}
	c.take(" ")
	pitch := c.anyNumber()
	c.take(")")
	if more := string(c); pitch == "" || more != "" && more != "lh" && more[0] != ' ' && more[0] != '-' {
		return nil
	}
	return []string{letters + diameter + "x" + pitch}
}

// classOrHand is "m6-6h", "m6x1-5g6g-lh", "1/4-20 unc-2a".
func classOrHand(text string) []string {
	alone, ok := withoutClass(text)
	for _, hand := range []string{"lh", "rh", "left", "right"} {
		if !ok {
			alone, ok = strings.CutSuffix(text, hand)
		}
	}
	if !ok {
		return nil
	}
	return []string{strings.TrimRight(alone, " -")}
}

// withoutClass cuts a tolerance class from the end: "6h", "5g6g", "2a".
func withoutClass(text string) (alone string, ok bool) {
	const metric, inch = "efgh", "abg"
	n := len(text)
	class := func(end int, letters string) bool {
		return end >= 2 && isDigit(text[end-2]) && strings.IndexByte(letters, text[end-1]) >= 0
	}
	switch {
	case class(n, metric) && class(n-2, metric):
		return text[:n-4], true
	case class(n, metric), class(n, inch) && text[n-2] >= '1' && text[n-2] <= '3':
		return text[:n-2], true
	}
	return text, false
}

// pipeClass is "g 1/8 a".
func pipeClass(text string) []string {
	if !strings.HasPrefix(text, "g") || !strings.HasSuffix(text, "a") && !strings.HasSuffix(text, "b") {
		return nil
	}
	alone := strings.TrimRight(text[:len(text)-1], " -")
	if !endsInDigit(alone) {
		return nil
	}
	return []string{alone}
}

// metricInWords is "m3 0.5", "mf 6x0.75", "m6 fine", "m6 coarse".
func metricInWords(text string) []string {
	c := cursor(text)
	if !c.take("m") {
		return nil
	}
	fine := c.take("f")
	c.take(" ")
	diameter := c.anyNumber()
	if diameter == "" {
		return nil
	}
	coarse := "m" + diameter
	every := coarse + "x0.001" // a pitch that none has brings all that there are
	switch rest := c; {
	case fine && c.end():
		return []string{every}
	case !fine && (c == " fine" || c == " mf"):
		return []string{every}
	case !fine && c == " coarse":
		return []string{coarse}
	case c.take("x"):
		pitch := c.anyNumber()
		c.takeAny(" fine", " coarse")
		return c.metricOf(diameter, pitch)
	case !fine && rest.takeAny(" ", "/") != "":
		pitch := rest.anyNumber()
		rest.takeAny(" mm", "mm")
		return rest.metricOf(diameter, pitch)
	}
	return nil
}

// metricOf returns a metric thread if it was read to the end.
func (c *cursor) metricOf(diameter, pitch string) []string {
	if pitch == "" || !c.end() {
		return nil
	}
	return []string{"m" + diameter + "x" + pitch}
}

// metricWithoutLetter is "3x0.5" or "3 mm".
func metricWithoutLetter(text string) []string {
	c := cursor(text)
	diameter := c.anyNumber()
	if diameter == "" {
		return nil
	}
	if c.takeAny(" mm", "mm") != "" && c.end() {
		return []string{"m" + diameter}
	}
	if !c.take("x") {
		return nil
	}
	pitch := c.anyNumber()
	c.takeAny(" mm", "mm")
	return c.metricOf(diameter, pitch)
}

// letterForNought is "oba".
func letterForNought(text string) []string {
	if text != "oba" {
		return nil
	}
	return []string{"0ba"}
}

// spaceForHyphen is "1/4 20 unc" or "1 1/8 7".
func spaceForHyphen(text string) []string {
	words := strings.Split(text, " ")
	last := len(words) - 1
	series := strings.TrimLeft(words[last], digits)
	size, count := words[:last], strings.TrimSuffix(words[last], series)
	if count == "" && last > 0 { // the series is a word of its own
		size, count, series = words[:last-1], words[last-1], " "+series
	}
	if !madeOf(count, digits) || strings.Trim(series, " abcdefghijklmnopqrstuvwxyz") != "" || len(size) < 1 || len(size) > 2 {
		return nil
	}
	if !madeOf(strings.TrimPrefix(size[0], "#"), digits+"./") || len(size) == 2 && !madeOf(size[1], digits+"/") {
		return nil
	}
	return []string{strings.Join(size, " ") + "-" + count + series}
}

// americanNational is "10-32 nf-2", the series before the Unified ones.
func americanNational(text string) []string {
	if endsInDigit(text) {
		text = strings.TrimSuffix(text[:len(text)-1], "-")
	}
	for _, series := range []string{"nc", "nf"} {
		if size, ok := cutWord(text, series); ok {
			return []string{size + " u" + series}
		}
	}
	return nil
}

// unifiedJ is "1/4-28 unjf", of which a Unified thread has the size.
func unifiedJ(text string) []string {
	for _, series := range []string{"c", "f", "ef"} {
		if size, ok := cutWord(text, "unj"+series); ok {
			return []string{size + " un" + series}
		}
	}
	return nil
}

// pipeByOtherLetters is "pf 1/8" or "pt 1/8".
func pipeByOtherLetters(text string) []string {
	c := cursor(text)
	if c.take("pt") {
		c.take(" ")
		return []string{"r " + string(c)}
	}
	if c.takeAny("pf", "ps") != "" {
		c.take(" ")
		return []string{"g " + string(c)}
	}
	return nil
}

// pipeInWords is "1/8 nptf", "1/8 gas" or "1/8 pipe".
func pipeInWords(text string) []string {
	for _, word := range []string{"nptf", "nps", "npsm", "npsf"} {
		if size, ok := cutWord(text, word); ok {
			return []string{size + " npt"}
		}
	}
	if size, ok := cutWord(text, "gas"); ok {
		return []string{size + " bsp"}
	}
	if size, ok := cutWord(text, "pipe"); ok {
		return []string{size + " bsp", size + " npt"}
	}
	return nil
}

// cutWord cuts a word and the space before it from behind a digit.
func cutWord(text, word string) (before string, ok bool) {
	before, ok = strings.CutSuffix(text, word)
	before = strings.TrimSuffix(before, " ")
	return before, ok && endsInDigit(before)
}

// anyNumber reads "3", "0.5" or ".5" of any length.
func (c *cursor) anyNumber() string { return c.number(len(*c), len(*c)) }

const digits = "0123456789"

// madeOf reports whether text is made of those characters, at least one.
func madeOf(text, chars string) bool { return text != "" && strings.Trim(text, chars) == "" }

func endsInDigit(text string) bool { return text != "" && isDigit(text[len(text)-1]) }

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

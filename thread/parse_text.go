package thread

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// normalise lowers the text, evens out the spaces and writes one sign for each
// that people use.
func normalise(s string) string {
	var few [64]byte
	text := plainSigns(few[:0], s)
	text = singleSpaces(text)
	text = dropStops(text)
	text = closeUp(text, 'x')
	text = closeUp(text, '-')
	return string(text)
}

// plainSigns appends s in small letters and with plain signs, without the mark
// of an inch.
func plainSigns(text []byte, s string) []byte {
	for len(s) > 0 {
		r, n := utf8.DecodeRuneInString(s)
		char, rest := s[:n], s[n:]
		s = rest
		switch r = unicode.ToLower(r); r {
		case '"', '″', '“', '”':
		case '\'', '’', '′': // two of them are the mark of an inch
			var double bool
			if s, double = strings.CutPrefix(rest, char); !double {
				text = append(text, char...)
			}
		case '×', '*':
			text = append(text, 'x')
		case '–', '−':
			text = append(text, '-')
		default:
			if top, bottom := fractionSign(r); bottom != 0 {
				text = append(text, ' ', top, '/', bottom)
			} else if unicode.IsSpace(r) {
				text = append(text, ' ')
			} else {
				text = utf8.AppendRune(text, r)
			}
		}
	}
	return text
}

// fractionSign returns the two numbers of a fraction that is one sign.
func fractionSign(r rune) (top, bottom byte) {
	switch r {
	case '½':
		return '1', '2'
	case '¼':
		return '1', '4'
	case '¾':
		return '3', '4'
	case '⅛':
		return '1', '8'
	case '⅜':
		return '3', '8'
	case '⅝':
		return '5', '8'
	case '⅞':
		return '7', '8'
	}
	return 0, 0
}

// The functions below work in place.

// singleSpaces leaves one space of several, and none at the ends.
func singleSpaces(text []byte) []byte {
	kept := text[:0]
	for i, b := range text {
		last := i+1 == len(text) || text[i+1] == ' '
		if b != ' ' || !last && len(kept) > 0 {
			kept = append(kept, b)
		}
	}
	return kept
}

// dropStops takes the full stop from behind a letter, as in "B.S.F." and
// "No. 4", where no decimals follow it.
func dropStops(text []byte) []byte {
	kept := text[:0]
	var before byte
	for i, b := range text {
		digitAfter := i+1 < len(text) && text[i+1] >= '0' && text[i+1] <= '9'
		if b != '.' || before < 'a' || before > 'z' || digitAfter {
			kept = append(kept, b)
		}
		before = b
	}
	return kept
}

// closeUp takes the spaces from both sides of a sign.
func closeUp(text []byte, sign byte) []byte {
	kept := text[:0]
	for i, b := range text {
		beside := i > 0 && len(kept) > 0 && kept[len(kept)-1] == sign || i+1 < len(text) && text[i+1] == sign
		if b != ' ' || !beside {
			kept = append(kept, b)
		}
	}
	return kept
}

package book

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
)

// A Quantity is what a value is: a number with its unit, a word, a list of words,
// a range, or nothing. Make one with the functions below.
type Quantity struct {
	suffix string   // of the key in JSON
	value  any      // nil, bool, int, float64, string, []int, []string or limits
	texts  []string // as a person reads it, one for each of the units it is shown in
}

// limits are both ends of a range; nil is an open one.
type limits struct {
	Min any `json:"min"`
	Max any `json:"max"`
}

// Length is a length in millimetres to the given places and in inches to one
// more.
func Length(l units.Length, places int) Quantity {
	return Quantity{"mm", l.MM(), []string{l.Text(units.Millimetres, places), l.Text(units.Inches, places+1)}}
}

// LengthThou is a length in millimetres and in thou, to the given places.
func LengthThou(l units.Length, mm, thou int) Quantity {
	return Quantity{"mm", l.MM(), []string{l.Text(units.Millimetres, mm), l.Text(units.Thousandths, thou)}}
}

// Angle is an angle in degrees to the given places.
func Angle(a units.Angle, places int) Quantity {
	return Number(a.In(units.Degree), places, "deg", "deg")
}

// Number is a number to the given places with its unit in text and, for the key
// in JSON, in letters.
func Number(v float64, places int, unit, suffix string) Quantity {
	v += 0 // no -0
	return Quantity{suffix, v, []string{strings.TrimRight(fault.Decimal(v, places)+" "+unit, " ")}}
}

// Signed is [Number] with a sign before it, also where it is above zero: an
// error, a distance one way or the other.
func Signed(v float64, places int, unit, suffix string) Quantity {
	q := Number(v, places, unit, suffix)
	q.texts[0] = strings.TrimRight(fault.Signed(v, places)+" "+unit, " ")
	return q
}

// Share is a share of a whole, in per cent to the given places.
func Share(v float64, places int) Quantity {
	q := Number(100*v, places, "%", "")
	q.value = v + 0 // no -0
	return q
}

// Shown is q, with text in place of what a person reads.
func (q Quantity) Shown(text string) Quantity {
	q.texts = []string{text}
	return q
}

// Millimetres is q without the text in its second unit.
func (q Quantity) Millimetres() Quantity {
	q.texts = q.texts[:1]
	return q
}

// Inches is q with the text in its second unit alone.
func (q Quantity) Inches() Quantity {
	q.texts = q.texts[1:]
	return q
}

// First is q with the text in the one unit that is read first: of a length the
// second where that is inches.
func (q Quantity) First(inch bool) Quantity {
	if len(q.texts) < 2 {
		return q
	}
	if inch {
		return q.Inches()
	}
	return q.Millimetres()
}

// Behind is q with a word behind its text: "/rev".
func (q Quantity) Behind(word string) Quantity {
	texts := make([]string, len(q.texts))
	for i, text := range q.texts {
		texts[i] = text + word
	}
	q.texts = texts
	return q
}

// Known reports whether it is there, and not a thing that does not happen.
func (q Quantity) Known() bool { return q.value != nil }

// Text is q as a person reads it.
func (q Quantity) Text() string { return strings.Join(q.texts, "  ") }

// And is q, with its text in a second unit behind it.
func (q Quantity) And(other Quantity) Quantity {
	q.texts = append(append([]string(nil), q.texts...), other.texts...)
	return q
}

// Count is a whole number.
func Count(n int) Quantity { return Quantity{"", n, []string{strconv.Itoa(n)}} }

// Counts is a list of whole numbers.
func Counts(list []int) Quantity {
	return Quantity{"", append([]int{}, list...), []string{strings.Trim(fmt.Sprint(list), "[]")}}
}

// Lengths is a list of lengths in millimetres to the given places.
func Lengths(list []units.Length, places int) Quantity {
	values, texts := make([]float64, len(list)), make([]string, len(list))
	for i, l := range list {
		values[i], texts[i] = l.MM(), l.Text(units.Millimetres, places)
	}
	return Quantity{"mm", values, []string{strings.Join(texts, ", ")}}
}

// Word is text.
func Word(s string) Quantity { return Quantity{"", s, []string{s}} }

// Words is a list of texts.
func Words(list []string) Quantity {
	return Quantity{"", append([]string{}, list...), []string{strings.Join(list, " ")}}
}

// Answer is yes or no.
func Answer(yes bool) Quantity {
	text := "no"
	if yes {
		text = "yes"
	}
	return Quantity{"", yes, []string{text}}
}

// Never is a quantity of the kind of q that does not happen; text says so.
func Never(q Quantity, text string) Quantity { return Quantity{q.suffix, nil, []string{text}} }

// Range is both ends of what may be anything between.
func Range(low, high Quantity) Quantity {
	q := Quantity{suffix: low.suffix, value: limits{low.value, high.value}}
	for i := range min(len(low.texts), len(high.texts)) {
		first, unit := cutUnit(low.texts[i])
		if last, same := cutUnit(high.texts[i]); same != unit {
			q.texts = append(q.texts, low.texts[i]+" to "+high.texts[i])
		} else if first == last {
			q.texts = append(q.texts, high.texts[i])
		} else {
			q.texts = append(q.texts, first+" to "+high.texts[i])
		}
	}
	return q
}

// cutUnit parts a number from its unit.
func cutUnit(text string) (number, unit string) {
	number, unit, _ = strings.Cut(text, " ")
	return number, unit
}

// list reports whether it is a list of words or numbers.
func (q Quantity) list() bool {
	switch q.value.(type) {
	case []int, []float64, []string:
		return true
	}
	return false
}

// key returns the last part of a key with the unit behind it.
func (q Quantity) key(name string) string {
	if q.suffix == "" {
		return name
	}
	return name + "_" + q.suffix
}

package cli

import (
	"cmp"
	"encoding"
	"errors"
	"flag"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// Flags are the flags of a program.
type Flags struct {
	set     *flag.FlagSet
	all     []*definition
	raw     []byte
	outputs []*output
	version bool
	booklet
	turns     bool  // the book is in the unit of the flags
	firstUnit *bool // set where that is an inch unit
	// first is the first mistake in a value: package flag would tell it in words
	// of its own.
	first error
}

type definition struct {
	name, wants, about string
	must               bool
	given              bool
	unit               unit // of the length that was given
}

// Raw makes the program print a file in place of a book.
func (f *Flags) Raw(text []byte) { f.raw = text }

// An output is files that the program writes beside its answer.
type output struct {
	flag       string // that asked for them
	folder     string
	files      []File
	mayReplace func(name string) bool // a file that is there
	refused    string                 // why not
	instead    string                 // what would be accepted
}

// Files makes the program write files into the folder that the flag -out names: all
// of them or, where something fails, none. Those that are there are replaced only
// where overwrite has it.
func (f *Flags) Files(folder string, files []File, overwrite bool) {
	f.outputs = append(f.outputs, &output{
		flag: "-out", folder: folder, files: files,
		mayReplace: func(string) bool { return overwrite },
		refused:    "there already", instead: "another folder, -overwrite",
	})
}

// Given reports whether a flag was given.
func (f *Flags) Given(name string) bool {
	for _, d := range f.all {
		if d.name == name {
			return d.given
		}
	}
	return false
}

// Switch is a flag without a value.
func (f *Flags) Switch(to *bool, name, about string) {
	d := f.define(name, "", about)
	f.set.BoolFunc(name, "", func(s string) error {
		v, err := strconv.ParseBool(s)
		*to, d.given = v, true
		return err
	})
}

// Text is a flag whose value is read by its type, such as a units.Length. Wants is
// a word for it in capitals, about says what it is, with an example and the
// default.
func (f *Flags) Text(to encoding.TextUnmarshaler, name, wants, about string) {
	_, length := to.(*units.Length)
	f.value(name, wants, about, func(s string) error {
		if length {
			f.measured(name, s)
		}
		return to.UnmarshalText([]byte(s))
	})
}

// Must is [Flags.Text] for a value that has no default.
func (f *Flags) Must(to encoding.TextUnmarshaler, name, wants, about string) {
	f.Text(to, name, wants, about+" (required)")
	f.all[len(f.all)-1].must = true
}

// Optional is [Flags.Text] for a value that is nil unless it is given.
func Optional[T any, P interface {
	*T
	encoding.TextUnmarshaler
}](f *Flags, to **T, name, wants, about string) {
	f.value(name, wants, about, func(s string) error {
		*to = new(T)
		if _, length := any(*to).(*units.Length); length {
			f.measured(name, s)
		}
		return P(*to).UnmarshalText([]byte(s))
	})
}

// Word is a flag whose value the program reads by itself.
func (f *Flags) Word(to *string, name, wants, about string) {
	f.value(name, wants, about, func(s string) error {
		*to = s
		return nil
	})
}

// Number is a flag whose value is a plain number.
func (f *Flags) Number(to *float64, name, wants, about string) {
	f.value(name, wants, about, func(s string) error {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return &units.ParseError{What: "number", Text: s, Problem: "not a number", Accepted: "a plain number, such as 0.75", Err: units.ErrSyntax}
		}
		*to = v
		return nil
	})
}

// Share is a flag whose value is a share of a whole, as a plain number or in per
// cent with their sign.
func (f *Flags) Share(to *float64, name, wants, about string) {
	f.value(name, wants, about, func(s string) error {
		number, perCent := strings.CutSuffix(strings.TrimSpace(s), "%")
		v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		if err != nil {
			return &units.ParseError{What: "share", Text: s, Problem: "not a number", Accepted: `a share, such as 0.75, or "75 %"`, Err: units.ErrSyntax}
		}
		if perCent {
			v /= 100
		}
		*to = v
		return nil
	})
}

// Count is a flag whose value is a whole number.
func (f *Flags) Count(to *int, name, wants, about string) {
	f.value(name, wants, about, func(s string) error {
		v, err := ParseCount(s)
		if err == nil {
			*to = v
		}
		return err
	})
}

// OptionalCount is [Flags.Count] for a number that is nil unless it is given.
func (f *Flags) OptionalCount(to **int, name, wants, about string) {
	f.value(name, wants, about, func(s string) error {
		v, err := ParseCount(s)
		*to = &v
		return err
	})
}

// ParseCount reads a whole number.
func ParseCount(s string) (int, error) {
	v, err := strconv.Atoi(s)
	if err != nil {
		return 0, &units.ParseError{What: "count", Text: s, Problem: "not a whole number", Accepted: "a whole number, such as 12", Err: units.ErrSyntax}
	}
	return v, nil
}

func (f *Flags) define(name, wants, about string) *definition {
	d := &definition{name: name, wants: wants, about: about}
	f.all = append(f.all, d)
	return d
}

func (f *Flags) value(name, wants, about string, read func(string) error) {
	d := f.define(name, wants, about)
	f.set.Func(name, "", func(s string) error {
		err := error(nil)
		if d.given {
			err = errors.New("given twice; accepted: once")
		} else {
			err = read(s)
		}
		if f.first == nil {
			f.first = Named("-"+name, err)
		}
		d.given = true
		return nil
	})
}

// parse reads flags wherever they stand and returns the other arguments.
func (f *Flags) parse(args []string) (rest []string, err error) {
	for len(args) > 0 {
		if err := f.set.Parse(args); err != nil {
			return nil, f.wrongUse(err)
		}
		left := f.set.Args()
		if read := args[:len(args)-len(left)]; len(read) > 0 && read[len(read)-1] == "--" {
			rest = append(rest, left...)
			break
		}
		args = nil
		if len(left) > 0 {
			rest, args = append(rest, left[0]), left[1:]
		}
	}
	if f.first != nil {
		return nil, f.first
	}
	if f.version {
		return nil, errVersion
	}
	for _, d := range f.all {
		if d.must && !d.given {
			return nil, ErrUsage("-%s %s: missing", d.name, d.wants)
		}
	}
	if f.firstUnit != nil && f.inches() {
		*f.firstUnit = true
	}
	return rest, nil
}

// wrongUse puts what package flag says of a flag into the words of this package.
func (f *Flags) wrongUse(err error) error {
	if f.first != nil || errors.Is(err, flag.ErrHelp) {
		return cmp.Or(f.first, err)
	}
	if name, ok := strings.CutPrefix(err.Error(), "flag provided but not defined: "); ok {
		return ErrUsage("%s: no such flag", name)
	}
	if name, ok := strings.CutPrefix(err.Error(), "flag needs an argument: "); ok {
		return ErrUsage("%s: without a value", name)
	}
	return ErrUsage("%v", err)
}

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
)

// engineFile is what an engine file may hold. A nil pointer is a key that is not
// there.
type engineFile struct {
	Name     string `toml:"name"`
	Cylinder struct {
		Bore   *units.Length `toml:"bore"`
		Stroke *units.Length `toml:"stroke"`
	} `toml:"cylinder"`
	Motion struct {
		ConnectingRod *rod     `toml:"connecting_rod"`
		EccentricRod  *rod     `toml:"eccentric_rod"`
		LeverRatio    *float64 `toml:"lever_ratio"`
	} `toml:"motion"`
	Ports struct {
		Steam   *units.Length `toml:"steam"`
		Bar     *units.Length `toml:"bar"`
		Exhaust *units.Length `toml:"exhaust"`
		Length  *units.Length `toml:"length"`
	} `toml:"ports"`
	Valve struct {
		Length    *units.Length `toml:"length"`
		Cavity    *units.Length `toml:"cavity"`
		Offset    *units.Length `toml:"offset"`
		Admission string        `toml:"admission"`
	} `toml:"valve"`
	Eccentric struct {
		Travel  *units.Length `toml:"travel"`
		Advance *units.Angle  `toml:"advance"`
		Lead    *units.Length `toml:"lead"`
	} `toml:"eccentric"`
	Chest struct {
		Length *units.Length `toml:"length"`
	} `toml:"chest"`
	Lathe struct {
		Speeds       *speeds.Ladder         `toml:"speeds"`
		Motor        *units.Power           `toml:"motor"`
		CentreHeight *units.Length          `toml:"centre_height"`
		ChuckSpeed   *units.RotationalSpeed `toml:"chuck_speed"`
	} `toml:"lathe"`
	Mill struct {
		Speeds *speeds.Ladder `toml:"speeds"`
		Motor  *units.Power   `toml:"motor"`
	} `toml:"mill"`
	Drills struct {
		Set *gauge.Set `toml:"set"`
	} `toml:"drills"`
	Operations []operationEntry `toml:"operations"`
	Fits       []fitEntry       `toml:"fits"`
	Fasteners  []fastenerEntry  `toml:"fasteners"`
	Covers     []coverEntry     `toml:"covers"`
}

// A rod is a length, or the word infinite for a rod of no slant.
type rod units.Length

func (r *rod) UnmarshalText(text []byte) error {
	if string(text) == "infinite" {
		*r = rod{}
		return nil
	}
	l, err := units.ParseLength(string(text))
	if err == nil && l.Sign() <= 0 {
		err = &units.ArgumentError{Package: "enginebook", Field: "rod", Value: l.String(), Accepted: `a length above zero, or "infinite"`, Err: units.ErrOutOfRange}
	}
	if err == nil {
		*r = rod(l)
	}
	return err
}

// An input is an engine file that has been read, with the place of each key so
// that every complaint can name it.
type input struct {
	name   string
	engine engineFile
	at     map[string]unstable.Position // by key: "ports.steam", "fasteners[1].thread"
}

const largestFile = 1 << 20

func readFile(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("enginebook: %w", err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, largestFile+1))
	if err != nil {
		return nil, fmt.Errorf("enginebook: %w", err)
	}
	if len(text) > largestFile {
		return nil, fmt.Errorf("enginebook: %s: larger than 1 MiB; an engine file is a few kilobytes", name)
	}
	return text, nil
}

// parse reads an engine file strictly: an unknown key, a value of the wrong
// kind or unit and a key given twice are errors that name file, line and column
// and say what is accepted.
func parse(name string, text []byte) (*input, error) {
	text = bytes.TrimPrefix(text, []byte("\uFEFF")) // some editors mark a file as UTF-8
	in := &input{name: name, at: map[string]unstable.Position{}}
	if err := in.findKeys(text); err != nil {
		return nil, err
	}
	decoder := toml.NewDecoder(bytes.NewReader(text)).DisallowUnknownFields()
	err := decoder.Decode(&in.engine)

	var unknown *toml.StrictMissingError
	var bad *toml.DecodeError
	switch {
	case errors.As(err, &unknown):
		var all []error
		for _, e := range unknown.Errors {
			line, column := e.Position()
			all = append(all, in.complaint(line, column, "%s: unknown key; accepted: %s", strings.Join(e.Key(), "."), strings.Join(keysBeside(e.Key()), ", ")))
		}
		return nil, errors.Join(all...)
	case errors.As(err, &bad):
		line, column := bad.Position()
		return nil, in.complaint(line, column, "%s", explain(bad))
	case err != nil:
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return in, nil
}

// explain puts a decoder's complaint in the words of this file.
func explain(e *toml.DecodeError) string {
	key, message := strings.Join(e.Key(), "."), strings.TrimPrefix(e.Error(), "toml: ")
	if strings.Contains(message, "units.") || strings.Contains(message, "main.") || strings.Contains(message, "cannot ") { // a Go type, which says nothing to a builder
		message = "not of the right kind; accepted: " + kindOf(e.Key())
	}
	if key == "" {
		return message
	}
	return key + ": " + message
}

// kindOf says what belongs to a key.
func kindOf(key []string) string {
	name := strings.Join(key, ".")
	for _, k := range fieldKeys("", engineFile{}) {
		switch plain := strings.ReplaceAll(k.name, "[]", ""); {
		case plain == name && k.text:
			return `text in quotes, a quantity with its unit, such as "20 mm", "3/4 in" or "26 deg"`
		case plain == name:
			return "a plain number without quotes, such as 12 or -1.5"
		case strings.HasPrefix(k.name, name+"[]."):
			return "a table for each, under [[" + name + "]]"
		case strings.HasPrefix(k.name, name+"."):
			return "one table, under [" + name + "]"
		}
	}
	return "keys and values of an engine file"
}

func (in *input) complaint(line, column int, format string, args ...any) error {
	return fmt.Errorf("%s:%d:%d: %s", in.name, line, column, fmt.Sprintf(format, args...))
}

// errorAt returns a complaint about a key, at its place in the file. For a key
// that is missing it names the place of the table that should hold it.
func (in *input) errorAt(key, format string, args ...any) error {
	for k := key; ; {
		if p, ok := in.at[k]; ok {
			return in.complaint(p.Line, p.Column, "%s: %s", key, fmt.Sprintf(format, args...))
		}
		end := strings.LastIndexAny(k, ".[") // [fits] in place of [[fits]] is fits[0] too
		if end < 0 {
			return in.complaint(1, 1, "%s: %s", key, fmt.Sprintf(format, args...))
		}
		k = k[:end]
	}
}

// missing complains of each key whose value is not there.
func (in *input) missing(accepted string, keys ...string) error {
	var all []error
	for _, key := range keys {
		if _, ok := in.at[key]; !ok {
			all = append(all, in.errorAt(key, "missing; accepted: %s", accepted))
		}
	}
	return errors.Join(all...)
}

// findKeys notes where each key stands. It refuses what the decoder lets pass:
// a key that differs from the known one in its case only, and a bare number
// where text with a unit is wanted. Syntax is left to the decoder.
func (in *input) findKeys(text []byte) error {
	var p unstable.Parser
	p.Reset(text)
	var problems []error
	wantsText := map[string]bool{}
	for _, k := range fieldKeys("", engineFile{}) {
		wantsText[k.name] = k.text
	}
	counts := map[string]int{}
	table := ""
	var note func(prefix string, node *unstable.Node)
	place := func(prefix string, key unstable.Iterator) string {
		path := prefix
		for key.Next() {
			node := key.Node()
			part := string(node.Data)
			at := p.Shape(p.Range(node.Data)).Start
			if lower := strings.ToLower(part); part != lower {
				problems = append(problems, in.complaint(at.Line, at.Column, "%s: unknown key; accepted: %s", part, lower))
			}
			if path != "" {
				path += "."
			}
			path += part
			if n, ok := counts[path]; ok {
				path = fmt.Sprintf("%s[%d]", path, n-1)
			}
			if _, ok := in.at[path]; !ok {
				in.at[path] = at
			}
		}
		return path
	}
	note = func(prefix string, node *unstable.Node) {
		path := place(prefix, node.Key())
		switch value := node.Value(); value.Kind {
		case unstable.InlineTable:
			for it := value.Children(); it.Next(); {
				note(path, it.Node())
			}
		case unstable.Array:
			i := 0
			for it := value.Children(); it.Next(); i++ {
				if child := it.Node(); child.Kind == unstable.InlineTable {
					element := fmt.Sprintf("%s[%d]", path, i)
					in.at[element] = in.at[path]
					for inner := child.Children(); inner.Next(); {
						note(element, inner.Node())
					}
				}
			}
		case unstable.Integer, unstable.Float, unstable.Bool, unstable.LocalDate, unstable.LocalTime, unstable.LocalDateTime, unstable.DateTime:
			if wantsText[elementIndex.ReplaceAllString(path, "[]")] {
				at := p.Shape(p.Range(value.Data)).Start
				problems = append(problems, in.complaint(at.Line, at.Column, `%s: a bare %s; accepted: text in quotes, a quantity with its unit, such as "20 mm", "3/4 in" or "26 deg"`, path, value.Data))
			}
		}
	}
	for p.NextExpression() {
		switch node := p.Expression(); node.Kind {
		case unstable.KeyValue:
			note(table, node)
		case unstable.Table:
			table = place("", node.Key())
		case unstable.ArrayTable:
			var parts []string
			for key := node.Key(); key.Next(); {
				parts = append(parts, string(key.Node().Data))
			}
			counts[strings.Join(parts, ".")]++
			table = place("", node.Key())
		}
	}
	return errors.Join(problems...)
}

var elementIndex = regexp.MustCompile(`\[\d+\]`)

// keysBeside lists what the table of an unknown key may hold.
func keysBeside(key []string) []string {
	table := strings.Join(key[:len(key)-1], ".")
	var keys, all []string
	for _, k := range fieldKeys("", engineFile{}) {
		name := strings.ReplaceAll(k.name, "[]", "")
		first, rest, inTable := strings.Cut(name, ".")
		switch {
		case inTable && first == table:
			keys = append(keys, rest)
		case !inTable:
			all = append(all, name)
		case strings.HasPrefix(k.name, first+"[]"):
			all = append(all, "[["+first+"]]")
		default:
			all = append(all, "["+first+"]")
		}
	}
	if keys == nil {
		keys = all
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}

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
	"unicode"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
	"github.com/valvechest/valvechest/eccentric"
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
		ConnectingRod *eccentric.Rod `toml:"connecting_rod"`
		EccentricRod  *eccentric.Rod `toml:"eccentric_rod"`
		LeverRatio    *float64       `toml:"lever_ratio"`
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

// An input is an engine file that has been read, with the place of each key so
// that every complaint can name it.
type input struct {
	name   string
	engine engineFile
	at     map[string]unstable.Position // by key: "ports.steam", "fasteners[1].thread"
	keys   []keyPlace                   // in order of the file, those given twice too
}

type keyPlace struct {
	unstable.Position
	key string
}

// keyAt returns the key that stands at a place of the file or is the last one
// before it, without the numbers of entries.
func (in *input) keyAt(line, column int) string {
	key := ""
	for _, k := range in.keys {
		if k.Line > line || k.Line == line && k.Column > column {
			break
		}
		key = k.key
	}
	return elementIndex.ReplaceAllString(key, "")
}

const largestFile = 1 << 20

func readFile(name string) ([]byte, error) {
	const accepted = "accepted: an engine file in TOML, a few kilobytes, such as demo/engine.toml"
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("enginebook: %w; %s", err, accepted)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, largestFile+1))
	if err != nil {
		return nil, fmt.Errorf("enginebook: %w; %s", err, accepted)
	}
	if len(text) > largestFile {
		return nil, fmt.Errorf("enginebook: %s: larger than 1 MiB; %s", name, accepted)
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
			key := in.keyAt(line, column)
			if inner := strings.Join(e.Key(), "."); !strings.HasSuffix("."+key, "."+inner) {
				key = inner // of dotted keys, the place is that of the first
			}
			problem := "unknown key"
			if strings.HasSuffix("."+key, ".throw") {
				problem = "the word means the offset of the sheave to some and the full travel, twice that, to others"
			}
			all = append(all, in.complaint(line, column, "%s: %s; accepted: %s",
				short(key), problem, strings.Join(keysBeside(key), ", ")))
		}
		return nil, errors.Join(all...)
	case errors.As(err, &bad):
		line, column := bad.Position()
		return nil, in.complaint(line, column, "%s", in.explain(bad))
	case err != nil:
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return in, nil
}

// explain puts a decoder's complaint in the words of this file.
func (in *input) explain(e *toml.DecodeError) string {
	message := strings.TrimPrefix(e.Error(), "toml: ")
	key := strings.Join(e.Key(), ".")
	if full := in.keyAt(e.Position()); key != "" && full != "" {
		key = full // the decoder leaves out what an inline table stands in
	}
	switch {
	case key == "" && strings.HasSuffix(message, `got U+0022 '"'`):
		return `a quote too many; accepted: text in quotes; where it holds an inch mark, in single quotes, '1 3/8"'`
	case key == "" && strings.HasPrefix(message, "expected newline"):
		return "text without quotes, or something after a value; accepted: " + quantity.accepted()
	case key == "":
		return message + `; accepted: a name in brackets, [cylinder], or key = value, bore = "20 mm", one a line`
	case strings.Contains(message, "already"):
		message = "given twice; accepted: once"
	case strings.Contains(message, "units.") || strings.Contains(message, "main.") ||
		strings.Contains(message, "cannot ") || strings.Contains(message, "should be "):
		// A Go type or a term of TOML says nothing to a builder.
		message = "not of the right kind; accepted: " + valueOf(key)
	}
	return short(key) + ": " + message
}

// valueOf says what belongs to a key.
func valueOf(key string) string {
	for _, k := range fieldKeys("", engineFile{}) {
		switch {
		case strings.ReplaceAll(k.name, "[]", "") == key:
			return k.value.accepted()
		case strings.HasPrefix(k.name, key+"[]."):
			return "a table for each, under [[" + key + "]]"
		case strings.HasPrefix(k.name, key+"."):
			return "one table, under [" + key + "]"
		}
	}
	return "keys and values of an engine file"
}

// short cuts a name that somebody gave to a length that can be read.
func short(name string) string {
	const most = 60
	if runes := []rune(name); len(runes) > most {
		return string(runes[:most]) + "..."
	}
	return name
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

// errorsAt returns a complaint about a key for each of the errors joined in err.
func (in *input) errorsAt(key string, err error) error {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return in.errorAt(key, "%v", err)
	}
	var all []error
	for _, e := range joined.Unwrap() {
		all = append(all, in.errorsAt(key, e))
	}
	return errors.Join(all...)
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

// findKeys notes where each key stands. It refuses what the decoder lets pass or
// has poor words for: a key that differs from the known one in its case only, a
// value that is not text where text is wanted, and text that a page cannot show.
// Syntax is left to the decoder.
func (in *input) findKeys(text []byte) error {
	var p unstable.Parser
	p.Reset(text)
	var problems []error
	kinds := map[string]valueKind{}
	for _, k := range fieldKeys("", engineFile{}) {
		kinds[k.name] = k.value
	}
	counts := map[string]int{}
	table := ""
	var note func(prefix string, node *unstable.Node)
	place := func(prefix string, key unstable.Iterator) string {
		path := prefix
		for key.Next() {
			node := key.Node()
			part := string(node.Data)
			at := p.Shape(node.Raw).Start
			if lower := strings.ToLower(part); part != lower {
				problems = append(problems, in.complaint(at.Line, at.Column, "%s: unknown key; accepted: %s",
					short(part), short(lower)))
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
			in.keys = append(in.keys, keyPlace{at, path})
		}
		return path
	}
	note = func(prefix string, node *unstable.Node) {
		path := place(prefix, node.Key())
		value := node.Value()
		kind := kinds[elementIndex.ReplaceAllString(path, "[]")]
		refuse := func(what string) {
			at := in.keys[len(in.keys)-1].Position
			switch {
			case value.Raw.Length > 0:
				at = p.Shape(value.Raw).Start
			case value.Kind == unstable.Bool:
				at = p.Shape(p.Range(value.Data)).Start
			}
			problems = append(problems, in.complaint(at.Line, at.Column, "%s: %s; accepted: %s", path, what, kind.accepted()))
		}
		wantsText := kind != number
		switch value.Kind {
		case unstable.String:
			if wantsText && bytes.ContainsFunc(value.Data, unicode.IsControl) {
				refuse("a line break or another character that does not print")
			}
		case unstable.InlineTable:
			if wantsText {
				refuse("a table")
				return
			}
			for it := value.Children(); it.Next(); {
				note(path, it.Node())
			}
		case unstable.Array:
			if wantsText {
				refuse("a list")
				return
			}
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
		default:
			if wantsText {
				refuse("a bare " + string(value.Data))
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
func keysBeside(key string) []string {
	table := key[:max(0, strings.LastIndexByte(key, '.'))]
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

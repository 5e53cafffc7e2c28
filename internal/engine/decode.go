package engine

import (
	"bytes"
	"encoding"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"

	"github.com/valvechest/valvechest/internal/fault"
)

// Decode reads the text of an engine file into the struct that file points to.
// An unknown key, a value of the wrong kind or unit, a key given twice, text
// that does not print and everything that is not TOML are mistakes; the error
// joins all of them, in order of the file, each with its place and with what is
// accepted there. What could be read is in the struct all the same.
func Decode(name string, text []byte, file any) (*Document, error) {
	text = bytes.TrimPrefix(text, []byte("\uFEFF")) // some editors mark a file as UTF-8
	into := reflect.ValueOf(file).Elem()
	d := &decoder{
		Document: newDocument(name),
		text:     text,
		root:     schemaOf(into.Type()),
	}
	d.lines = append(d.lines, 0)
	for i, b := range text {
		if b == '\n' {
			d.lines = append(d.lines, i+1)
		}
	}
	d.table = &target{place: d.root, value: into}
	if len(text) > Largest {
		d.cut = true
		return d.Document, d.complaint(position{1, 1}, fmt.Sprintf("larger than %d KiB; accepted: a file of one engine, "+
			"a few kilobytes", Largest>>10))
	}
	if i := invalid(text); i >= 0 {
		d.cut = true
		return d.Document, d.complaint(d.position(i), "not UTF-8; accepted: a text file saved as UTF-8")
	}
	d.read(into)
	d.cut = d.full
	var all []error
	for _, m := range d.mistakes {
		all = append(all, d.complaint(d.position(m.at), m.said))
	}
	return d.Document, Join(all...)
}

// invalid returns where text is not UTF-8; -1 where all of it is.
func invalid(text []byte) int {
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return -1
}

type decoder struct {
	*Document
	text     []byte
	lines    []int // where each begins
	root     *place
	parser   unstable.Parser
	base     int     // where the parser's text begins in the file
	table    *target // that keys go to; nil below a header that was refused
	mistakes []mistake
	tables   int
	keys     int
	full     bool // no more is read
	unit     Unit // of lengths without one
}

type mistake struct {
	at   int // offset
	said string
}

// A target is a table of the struct that is being filled.
type target struct {
	place *place
	value reflect.Value
	path  string // with a point behind it, blank for the file itself
}

// position returns line and column of an offset.
func (d *decoder) position(offset int) position {
	line, found := slices.BinarySearch(d.lines, offset)
	if !found {
		line--
	}
	return position{line + 1, utf8.RuneCount(d.text[d.lines[line]:offset]) + 1}
}

// complain records a mistake, until there are so many that nobody reads on.
func (d *decoder) complain(offset int, format string, args ...any) {
	if d.full {
		return
	}
	if len(d.mistakes) == mostTold {
		d.full = true
		format, args = "more than %d mistakes; the rest of the file was not read", []any{mostTold}
	}
	d.mistakes = append(d.mistakes, mistake{offset, fmt.Sprintf(format, args...)})
}

// read goes through the file. Behind a line that is not TOML it begins again
// with the next one.
func (d *decoder) read(into reflect.Value) {
	for !d.full {
		d.parser.Reset(d.text[d.base:])
		for !d.full && d.parser.NextExpression() {
			d.expression(d.parser.Expression(), into)
		}
		var bad *unstable.ParserError
		if !errors.As(d.parser.Error(), &bad) {
			return
		}
		at := d.base + int(d.parser.Range(bad.Highlight).Offset)
		start := d.lines[d.position(min(at, len(d.text))).line-1]
		end := len(d.text)
		if i := bytes.IndexByte(d.text[start:], '\n'); i >= 0 {
			end = start + i + 1
		}
		line := strings.TrimSpace(string(d.text[start:end]))
		d.complain(at, "%s", syntax(bad.Message, line))
		if strings.HasPrefix(line, "[") {
			d.table = nil // nobody knows which
			d.unclear[""] = true
		} else if d.table != nil {
			d.unclear[strings.TrimSuffix(d.table.path, ".")] = true
		}
		d.base = end
	}
}

// syntax puts a complaint of the parser in the words of a builder.
func syntax(message, line string) string {
	_, value, _ := strings.Cut(line, "=")
	first, _ := utf8.DecodeRuneInString(strings.TrimSpace(value))
	switch {
	case strings.ContainsRune("\u201c\u201d\u201e\u2018\u2019\u00ab\u00bb", first) && first != utf8.RuneError:
		return `typographic quotes; accepted: straight ones, as in bore = "20 mm"`
	case strings.HasSuffix(message, `got U+0022 '"'`):
		return `a quote too many; accepted: text in quotes; where it holds an inch mark, in single quotes, '1 3/8"'`
	case strings.HasPrefix(message, "expected newline"):
		return "text without quotes, or something after a value; accepted: " + quantity.accepted()
	}
	return message + `; accepted: a name in brackets, [cylinder], or key = value, bore = "20 mm", one a line`
}

func (d *decoder) expression(node *unstable.Node, into reflect.Value) {
	switch node.Kind {
	case unstable.KeyValue:
		if d.table != nil {
			d.keyValue(d.table, node)
		}
	case unstable.Table, unstable.ArrayTable:
		d.table = d.header(node, into)
	}
}

// offset returns where a node begins in the file.
func (d *decoder) offset(node *unstable.Node) int {
	if node.Raw.Length > 0 {
		return d.base + int(node.Raw.Offset)
	}
	if node.Kind == unstable.Bool {
		return d.base + int(d.parser.Range(node.Data).Offset)
	}
	return -1
}

// header returns the table that a line in brackets begins; nil if it was refused.
func (d *decoder) header(node *unstable.Node, into reflect.Value) *target {
	t := &target{place: d.root, value: into}
	names := node.Key()
	depth := 0
	for names.Next() {
		depth++
		part := names.Node()
		inner, at := d.lookUp(t, part, depth)
		if inner == nil {
			return nil
		}
		last := names.IsLast()
		switch {
		case inner.kind != table && inner.kind != list, inner.kind == table && node.Kind == unstable.ArrayTable && last:
			d.complain(at, "%s%s: not of the right kind; accepted: %s", shown(t.path), inner.key, inner.accepted())
			d.unclear[t.path+inner.key] = true
			return nil
		case last && d.Has(t.path+inner.key) && !(inner.kind == list && node.Kind == unstable.ArrayTable):
			d.complain(at, "%s%s: given twice; accepted: once", shown(t.path), inner.key)
			d.unclear[t.path+inner.key] = true
			return nil
		}
		t = d.enter(t, inner, at)
	}
	return t
}

// enter returns the table at a place of another, a new one where it is a list.
func (d *decoder) enter(t *target, inner *place, at int) *target {
	if d.tables++; d.tables > mostTables {
		d.complain(at, "more than %d tables; accepted: the tables of one engine", mostTables)
		d.full = true
	}
	path := t.path + inner.key
	if !d.Has(path) {
		d.at[path] = d.position(at)
	}
	value := t.value.Field(inner.field)
	if inner.kind == list {
		value.Set(reflect.Append(value, reflect.Zero(value.Type().Elem())))
		path = fmt.Sprintf("%s[%d]", path, value.Len()-1)
		value = value.Index(value.Len() - 1)
		d.at[path] = d.position(at)
	}
	return &target{place: inner, value: value, path: path + "."}
}

// lookUp returns the place of one name of a key in a table, and where the name
// stands; nil if there is no such key.
func (d *decoder) lookUp(t *target, node *unstable.Node, depth int) (*place, int) {
	at := d.offset(node)
	name := string(node.Data)
	if t.place.keys[name] == nil {
		d.unclear[strings.TrimSuffix(t.path, ".")] = true
	}
	if depth > deepestKey {
		d.complain(at, "more than %d names in one key; accepted: one, such as bore", deepestKey)
		return nil, at
	}
	if inner := t.place.keys[name]; inner != nil {
		return inner, at
	}
	switch lower := strings.ToLower(name); {
	case t.place.keys[lower] != nil:
		d.complain(at, "%s: unknown key; accepted: %s", short(name), lower)
	case name == "throw":
		d.complain(at, "%s%s: the word means the offset of the sheave to some and the full travel, twice that, to "+
			"others; accepted: %s", shown(t.path), name, t.place.names())
	default:
		d.complain(at, "%s%s: unknown key; accepted: %s", withoutIndex(t.path), short(name), t.place.names())
	}
	return nil, at
}

// withoutIndex returns the path of a table as a file has it.
func withoutIndex(path string) string {
	before, after, ok := strings.Cut(path, "[")
	if !ok {
		return path
	}
	_, after, _ = strings.Cut(after, "]")
	return before + after
}

// short cuts a name that somebody gave to a length that can be read, with the
// characters that do not print as escapes.
func short(name string) string {
	const most = 60
	dots, count := "", 0
	for i := range name {
		if count++; count > most {
			name, dots = name[:i], "..."
			break
		}
	}
	return fault.Visible(name) + dots
}

// keyValue reads one line into a table.
func (d *decoder) keyValue(t *target, node *unstable.Node) {
	if d.keys++; d.keys > mostKeys {
		d.complain(d.offset(node.Child().Next()), "more than %d keys; accepted: those of one engine", mostKeys)
		d.full = true
		return
	}
	names := node.Key()
	for depth := 1; names.Next(); depth++ {
		inner, at := d.lookUp(t, names.Node(), depth)
		switch {
		case inner == nil:
			return
		case names.IsLast():
			d.value(t, inner, at, node.Value())
			return
		case inner.kind == table && d.Has(t.path+inner.key): // a second of its keys
			t = &target{place: inner, value: t.value.Field(inner.field), path: t.path + inner.key + "."}
		case inner.kind == table:
			t = d.enter(t, inner, at)
		default:
			d.complain(at, "%s%s: not of the right kind; accepted: %s", shown(t.path), inner.key, inner.accepted())
			d.unclear[t.path+inner.key] = true
			d.refuse(t.path + inner.key)
			return
		}
	}
}

// value reads what stands behind an equals sign.
func (d *decoder) value(t *target, inner *place, at int, value *unstable.Node) {
	path := t.path + inner.key
	if d.Has(path) {
		d.complain(at, "%s: given twice; accepted: once", shown(path))
		return
	}
	behind := at
	if o := d.offset(value); o >= 0 {
		behind = o
	}
	switch {
	case inner.kind == table && value.Kind == unstable.InlineTable:
		d.inline(d.enter(t, inner, at), value)
		return
	case inner.kind == list && value.Kind == unstable.Array:
		for it := value.Children(); it.Next() && !d.full; {
			if it.Node().Kind != unstable.InlineTable {
				d.complain(behind, "%s: not of the right kind; accepted: %s", shown(path), inner.accepted())
				d.unclear[path] = true
				return
			}
			d.inline(d.enter(t, inner, at), it.Node())
		}
		return
	case inner.kind == table || inner.kind == list:
		d.complain(behind, "%s: not of the right kind; accepted: %s", shown(path), inner.accepted())
		d.unclear[path] = true
		return
	}
	d.at[path] = d.position(behind)
	field := t.value.Field(inner.field)
	if inner.kind == words {
		d.words(field, path, behind, value)
		return
	}
	read := reflect.New(elementOf(field.Type()))
	if problem := d.scalar(read.Elem(), inner.kind, value); problem != "" {
		d.complain(behind, "%s: %s", shown(path), problem)
		d.refuse(path)
		return
	}
	if field.Kind() == reflect.Pointer {
		field.Set(read)
	} else {
		field.Set(read.Elem())
	}
}

// words reads a list of texts, each of which stands in it once.
func (d *decoder) words(list reflect.Value, path string, at int, value *unstable.Node) {
	complain := func(problem string) {
		d.complain(at, "%s: %s", shown(path), problem)
		d.refuse(path)
	}
	if value.Kind != unstable.Array {
		complain("not of the right kind; accepted: " + words.accepted())
		return
	}
	for it := value.Children(); it.Next() && !d.full; {
		if o := d.offset(it.Node()); o >= 0 {
			at = o
		}
		if d.keys++; d.keys > mostKeys {
			d.complain(at, "more than %d keys; accepted: those of one engine", mostKeys)
			d.full = true
			return
		}
		read := reflect.New(list.Type().Elem()).Elem()
		if problem := d.scalar(read, text, it.Node()); problem != "" {
			complain(problem)
			continue
		}
		for i := range list.Len() {
			if list.Index(i).Equal(read) {
				complain(fmt.Sprintf("%s is given twice; accepted: once", short(string(it.Node().Data))))
				return
			}
		}
		list.Set(reflect.Append(list, read))
	}
}

// inline reads a table that stands in braces.
func (d *decoder) inline(t *target, value *unstable.Node) {
	for it := value.Children(); it.Next() && !d.full; {
		d.keyValue(t, it.Node())
	}
}

// scalar sets a field to a number or text and returns what is wrong with it.
func (d *decoder) scalar(field reflect.Value, want kind, value *unstable.Node) (problem string) {
	if want == number {
		if !setNumber(field, value) {
			return "not of the right kind; accepted: " + acceptedNumber(field)
		}
		return ""
	}
	data := value.Data
	switch value.Kind {
	case unstable.String:
		if want == length && d.unit != 0 && bare(data) {
			data = append(slices.Clone(data), " "+d.unit.String()...)
		}
	case unstable.Integer, unstable.Float:
		switch {
		case d.unit == 0 || want != length && want != measured:
			return "a bare " + short(string(data)) + "; accepted: " + want.accepted()
		case want == length:
			data = append(slices.Clone(data), " "+d.unit.String()...)
		}
	case unstable.InlineTable:
		return "a table; accepted: " + want.accepted()
	case unstable.Array:
		return "a list; accepted: " + want.accepted()
	default:
		return "a bare " + short(string(value.Data)) + "; accepted: " + want.accepted()
	}
	if utf8.RuneCount(data) > longestText {
		return fmt.Sprintf("longer than %d characters; accepted: %s", longestText, want.accepted())
	}
	hidden := func(r rune) bool { return !fault.Prints(r) && !unicode.Is(unicode.Zs, r) }
	if i := bytes.IndexFunc(data, hidden); i >= 0 {
		r, _ := utf8.DecodeRune(data[i:])
		return fmt.Sprintf("%s in it, a line break or another character that does not print; accepted: %s",
			fault.Visible(string(r)), want.accepted())
	}
	if reads, ok := field.Addr().Interface().(encoding.TextUnmarshaler); ok {
		if err := reads.UnmarshalText(data); err != nil {
			return fault.Plain(err)
		}
		if u, ok := field.Interface().(Unit); ok {
			d.unit = u
		}
		return ""
	}
	field.SetString(string(data))
	return ""
}

// bare reports whether a text is a number without a unit.
func bare(data []byte) bool {
	return len(data) > 0 && len(bytes.Trim(data, "0123456789+-./ ")) == 0
}

func acceptedNumber(field reflect.Value) string {
	if field.CanInt() {
		return "a whole number without quotes, such as 12"
	}
	return number.accepted()
}

// setNumber sets a field to a number, whole where the field is.
func setNumber(field reflect.Value, value *unstable.Node) bool {
	digits := string(value.Data)
	switch {
	case value.Kind == unstable.Integer && field.CanInt():
		n, err := strconv.ParseInt(digits, 0, field.Type().Bits())
		field.SetInt(n)
		return err == nil
	case (value.Kind == unstable.Integer || value.Kind == unstable.Float) && field.CanFloat():
		v, err := strconv.ParseFloat(strings.ReplaceAll(digits, "_", ""), 64)
		if value.Kind == unstable.Integer && err != nil { // 0x10 and its like
			var n int64
			n, err = strconv.ParseInt(digits, 0, 64)
			v = float64(n)
		}
		field.SetFloat(v)
		return err == nil
	}
	return false
}

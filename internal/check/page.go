package check

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// A Node is an element of a page of HTML, or text in one.
type Node struct {
	Name string // blank for text
	Attr map[string]string
	Text string
	In   []*Node
}

// ReadPage reads a page of HTML by the strict rules of XML, by which every element is
// closed in order, every attribute is quoted and every character is escaped.
func ReadPage(text []byte) (*Node, error) {
	root := &Node{}
	open := []*Node{root}
	decoder := xml.NewDecoder(bytes.NewReader(text))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return root, nil
		}
		if err != nil {
			return nil, err
		}
		last := open[len(open)-1]
		switch token := token.(type) {
		case xml.StartElement:
			n := &Node{Name: token.Name.Local, Attr: map[string]string{}}
			for _, a := range token.Attr {
				if _, double := n.Attr[a.Name.Local]; double {
					return nil, fmt.Errorf("%s: two attributes %s", n.Name, a.Name.Local)
				}
				n.Attr[a.Name.Local] = a.Value
			}
			last.In = append(last.In, n)
			open = append(open, n)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			last.In = append(last.In, &Node{Text: string(token)})
		}
	}
}

// All yields a node and those in it, in order.
func (n *Node) All(yield func(*Node) bool) { n.each(yield) }

func (n *Node) each(yield func(*Node) bool) bool {
	if !yield(n) {
		return false
	}
	for _, inner := range n.In {
		if !inner.each(yield) {
			return false
		}
	}
	return true
}

// Named returns the elements of some names, in order.
func (n *Node) Named(names ...string) []*Node {
	var found []*Node
	for n := range n.All {
		if n.Name != "" && slices.Contains(names, n.Name) {
			found = append(found, n)
		}
	}
	return found
}

// Words returns the text of a node in one line, cells apart.
func (n *Node) Words() string {
	var b strings.Builder
	n.words(&b)
	return strings.Join(strings.Fields(b.String()), " ")
}

func (n *Node) words(b *strings.Builder) {
	if n.Name == "style" {
		return
	}
	b.WriteString(n.Text)
	for _, inner := range n.In {
		inner.words(b)
	}
	if n.Name == "td" || n.Name == "th" {
		b.WriteByte(' ')
	}
}

// Faults returns what is wrong with how a page is made: an id twice, a link to
// nothing, a heading out of order, a picture, box or table that is not named for who
// does not see it, and whatever runs or comes from elsewhere.
func (n *Node) Faults() []string {
	p := &pageFaults{ids: map[string]bool{}}
	for n := range n.All {
		if id := n.Attr["id"]; id != "" {
			if p.ids[id] || strings.ContainsAny(id, " \t\n") {
				p.tell("id %q twice, or with a blank", id)
			}
			p.ids[id] = true
		}
		p.outside(n)
	}
	p.headings(n)
	p.pictures(n)
	for _, a := range n.Named("a") {
		if !p.ids[strings.TrimPrefix(a.Attr["href"], "#")] || a.Words() == "" {
			p.tell("a link %q to %q", a.Words(), a.Attr["href"])
		}
	}
	for _, input := range n.Named("input") {
		if input.Attr["type"] != "checkbox" || input.Attr["aria-label"] == "" {
			p.tell("an input %v", input.Attr)
		}
	}
	for _, table := range n.Named("table") {
		p.table(table)
	}
	for _, d := range n.Named("details") {
		if d.Named("summary") == nil {
			p.tell("details without a summary")
		}
	}
	return p.all
}

type pageFaults struct {
	ids map[string]bool
	all []string
}

func (p *pageFaults) tell(format string, args ...any) {
	p.all = append(p.all, fmt.Sprintf(format, args...))
}

// outside tells of what an element runs or asks for.
func (p *pageFaults) outside(n *Node) {
	switch n.Name {
	case "script", "link", "img", "iframe", "object", "embed", "base", "form", "image", "use", "foreignObject":
		p.tell("an element %s", n.Name)
	case "style":
		for _, word := range []string{"url(", "@import", "@font-face"} {
			if len(n.In) > 0 && strings.Contains(n.In[0].Text, word) {
				p.tell("%s in the style", word)
			}
		}
	}
	for name, value := range n.Attr {
		_, url, _ := strings.Cut(value, "url(")
		switch {
		case strings.HasPrefix(name, "on"), name == "src", name == "data", name == "action",
			name == "href" && !strings.HasPrefix(value, "#"), url != "" && !strings.HasPrefix(url, "#"):
			p.tell("%s %s=%q runs or asks for something", n.Name, name, value)
		}
	}
}

func (p *pageFaults) headings(n *Node) {
	level := 0
	for _, h := range n.Named("h1", "h2", "h3", "h4", "h5", "h6") {
		now := int(h.Name[1] - '0')
		if now > level+1 || (now == 1) != (level == 0) || h.Words() == "" {
			p.tell("heading %q of level %d after one of level %d", h.Words(), now, level)
		}
		level = now
	}
	if titles := n.Named("title"); level == 0 || len(titles) == 0 || titles[0].Words() == "" {
		p.tell("no title or no heading")
	}
	if html := n.Named("html"); len(html) != 1 || html[0].Attr["lang"] == "" {
		p.tell("no language")
	}
}

func (p *pageFaults) pictures(n *Node) {
	for _, svg := range n.Named("svg") {
		title, alt := svg.Named("title"), svg.Named("desc")
		if svg.Attr["role"] != "img" || len(title) != 1 || title[0].Words() == "" || len(alt) != 1 || alt[0].Words() == "" ||
			svg.Attr["aria-labelledby"] != title[0].Attr["id"]+" "+alt[0].Attr["id"] {
			p.tell("a picture %v without its role, a title or a description", svg.Attr)
		}
	}
}

// table tells of rows that are not as long as each other, and of cells that have no
// head, of their column or their row.
func (p *pageFaults) table(table *Node) {
	columns := -1
	var reach []int // rows that cells from above still reach, with their widths
	var wide []int
	for _, row := range table.Named("tr") {
		n, heads := 0, 0
		for i := range reach {
			if reach[i] > 0 {
				n, reach[i] = n+wide[i], reach[i]-1
			}
		}
		for _, cell := range row.Named("td", "th") {
			span := 1
			if s := cell.Attr["colspan"]; s != "" {
				span, _ = strconv.Atoi(s)
			}
			n += span
			if s := cell.Attr["rowspan"]; s != "" {
				rows, _ := strconv.Atoi(s)
				reach, wide = append(reach, rows-1), append(wide, span)
			}
			if cell.Name == "th" {
				heads++
				if cell.Attr["scope"] == "" || cell.Words() == "" {
					p.tell("a head %q with the scope %q", cell.Words(), cell.Attr["scope"])
				}
			}
		}
		if columns >= 0 && n != columns {
			p.tell("%d columns and %d: %s", columns, n, table.Words())
		}
		columns = n
		if heads == 0 && len(table.Named("thead")) == 0 && row.Attr["class"] != "below" {
			p.tell("no head for %q", row.Words())
		}
	}
	for _, rows := range reach {
		if rows > 0 {
			p.tell("a cell reaches %d rows below the table: %s", rows, table.Words())
		}
	}
}

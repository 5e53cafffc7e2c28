package sheet

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// TestPDF checks what the file says about itself: its cross references point at
// the objects, it is the same when written again, and it asks not to be scaled.
func TestPDF(t *testing.T) {
	var a, b bytes.Buffer
	for _, w := range []io.Writer{&a, &b} {
		if err := WritePDF(w, "Cover", everything(), New(215.9, 279.4)); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("two files of the same drawing differ")
	}
	file := a.String()
	if strings.Count(file, "Date (D:20000101000000") != 2 {
		t.Error("a date that changes from day to day")
	}
	if !strings.Contains(content(t, file), "\n1 j\n") {
		t.Error("the line joins are not round")
	}
	if !strings.HasPrefix(file, "%PDF-1.7\n") || strings.Count(file, "/ViewerPreferences <</PrintScaling /None>>") != 1 {
		t.Error("version 1.7 or print scaling missing")
	}
	start := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindStringSubmatch(file)
	if start == nil {
		t.Fatal("no startxref")
	}
	offset, _ := strconv.Atoi(start[1])
	references := regexp.MustCompile(`(?s)^xref\n0 (\d+)\n(.*?)trailer`).FindStringSubmatch(file[offset:])
	if references == nil {
		t.Fatalf("startxref points at %.20q", file[offset:])
	}
	for i, entry := range strings.Split(strings.TrimRight(references[2], "\n"), "\n") {
		at, _ := strconv.Atoi(entry[:10])
		if want := fmt.Sprintf("%d 0 obj\n", i); i > 0 && !strings.HasPrefix(file[at:], want) {
			t.Errorf("object %d is said to be at %d: %.20q", i, at, file[at:])
		}
	}
}

// content returns the first stream of a PDF, what stands on its first page.
func content(t *testing.T, file string) string {
	t.Helper()
	_, after, _ := strings.Cut(file, "stream\n")
	packed, err := zlib.NewReader(strings.NewReader(after))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(packed)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestUnscaledRefuses(t *testing.T) {
	for name, file := range map[string]string{
		"no catalog":        "%PDF-1.3\nxref\ntrailer\nstartxref\n9\n%%EOF\n",
		"catalog not last":  "%PDF-1.3\n1 0 obj\n<<\n/Type /Catalog\n>>\nendobj\n2 0 obj\n<<>>\nendobj\nxref\nstartxref\n64\n%%EOF\n",
		"no number":         "%PDF-1.3\n1 0 obj\n<<\n/Type /Catalog\n>>\nstartxref\nx\n%%EOF\n",
		"another header":    "%!PS\n/Type /Catalog\nstartxref\n30\n",
		"cut off":           "%PDF-1.3\n/Type /Catalog\nstartxref\n",
		"offset before it":  "%PDF-1.3\n1 0 obj\n<<\n/Type /Catalog\n>>\nstartxref\n3\n%%EOF\n",
		"offset beyond end": "%PDF-1.3\n1 0 obj\n<<\n/Type /Catalog\n>>\nstartxref\n99999\n%%EOF\n",
	} {
		t.Run(name, func(t *testing.T) {
			if out, err := unscaled([]byte(file)); err == nil {
				t.Errorf("got %q", out)
			}
		})
	}
}

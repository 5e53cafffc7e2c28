package sheet

import (
	"bytes"
	"errors"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

func TestDXF(t *testing.T) {
	var b bytes.Buffer
	if err := WriteDXF(&b, everything()); err != nil {
		t.Fatal(err)
	}
	file := strings.ReplaceAll(b.String(), "\r\n", "|")
	for _, want := range []string{
		"9|$ACADVER|1|AC1009|",
		"0|LAYER|2|THICK|70|0|62|7|6|CONTINUOUS|0|LAYER|2|THIN|70|0|62|3|6|CHAIN|0|ENDTAB|",
		"0|LINE|8|THICK|10|10.0|20|20.0|30|0.0|11|110.0|21|20.0|31|0.0|",
		"0|CIRCLE|8|THICK|10|50.0|20|100.0|30|0.0|40|20.0|",
		"0|ARC|8|THIN|10|50.0|20|100.0|30|0.0|40|30.0|50|0.0|51|90.0|",
		"0|POLYLINE|8|THICK|66|1|10|0.0|20|0.0|30|0.0|70|1|0|VERTEX|8|THICK|10|0.0|20|0.0|30|0.0|42|0.0|0|VERTEX|8|THICK|10|10.0|20|0.0|30|0.0|42|1.0|",
		"42|-0.5|0|SEQEND|8|THICK|",
		"0|SOLID|8|THICK|10|1.0|20|1.0|30|0.0|11|2.0|21|1.0|31|0.0|12|2.0|22|3.0|32|0.0|13|2.0|23|3.0|33|0.0|",
		"0|TEXT|8|THIN|10|100.0|20|200.0|30|0.0|40|2.5|1|%%c36 <&> 5%%d|50|90.0|7|STANDARD|72|1|11|100.0|21|200.0|31|0.0|",
	} {
		if !strings.Contains(file, want) {
			t.Errorf("missing %s", want)
		}
	}
	if !strings.HasSuffix(file, "0|ENDSEC|0|EOF|") {
		t.Errorf("ends in %q", file[len(file)-40:])
	}
}

// TestDXFRefusals checks what release 12 cannot hold.
func TestDXFRefusals(t *testing.T) {
	stretched, viewing, wordy := New(10, 10), New(10, 10), New(10, 10)
	stretched.Stretch(1.1, 1)
	viewing.View(View{Of: New(5, 5), Box: Box{Max: Point{1, 1}}})
	wordy.Text(thick, Text{Height: 1, Value: strings.Repeat("é", 40)})
	for name, d := range map[string]*Drawing{"stretched": stretched, "view": viewing, "long text": wordy} {
		if err := WriteDXF(io.Discard, d); !errors.Is(err, units.ErrOutOfRange) || !strings.Contains(err.Error(), "release 12") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// decodeDXF reads a DXF text as readers do.
func decodeDXF(s string) string {
	s = strings.NewReplacer("%%c", "ø", "%%d", "°", "%%p", "±", "^ ", "^").Replace(s)
	return regexp.MustCompile(`\\U\+[0-9A-F]{4}`).ReplaceAllStringFunc(s, func(code string) string {
		r, _ := strconv.ParseUint(code[3:], 16, 32)
		return string(rune(r))
	})
}

package thread_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

func TestParse(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"M3", "M3x0.5"},
		{"M3x0.5", "M3x0.5"},
		{"M3 x 0.35", "M3x0.35"},
		{"m4", "M4x0.7"},
		{"M3×0.5", "M3x0.5"},
		{"M2.5*.35", "M2.5x0.35"},
		{"M3-0.5", "M3x0.5"},
		{"M3 X 0.5 mm", "M3x0.5"},
		{"M3\u00a0×\u00a00.5", "M3x0.5"},
		{"1/4-20", "1/4-20 UNC"},
		{`1/4"-20 UNC`, "1/4-20 UNC"},
		{"1/4 in - 20 UN", "1/4-20 UNC"},
		{".250-20", "1/4-20 UNC"},
		{`1" UNC`, "1-8 UNC"}, // an inch mark is no screw number
		{"1 in UNF", "1-12 UNF"},
		{"2'' UNC", "2-4.5 UNC"},
		{`1"-56 UNS`, "1.0-56 UNS"},
		{"1/4 UNF", "1/4-28 UNF"},
		{"#4-40", "4-40 UNC"},
		{"4-40 UNC", "4-40 UNC"},
		{"No. 10-32", "10-32 UNF"},
		{"# 4 - 40", "4-40 UNC"},
		{"1-8", "1-8 UNC"},
		{"1-72", "1-72 UNF"},
		{"1 1/8-7", "1 1/8-7 UNC"},
		{"1-1/8-7 UNC", "1 1/8-7 UNC"},
		{"1⅛-12", "1 1/8-12 UNF"},
		{"2BA", "2 BA"},
		{"2 BA", "2 BA"},
		{"BA 2", "2 BA"},
		{"No. 8 B.A.", "8 BA"},
		{"BA2", "2 BA"},
		{"0BA", "0 BA"},
		{"2-BA", "2 BA"},
		{"1/4 BSF", "1/4 BSF"},
		{"1/4-26 BSF", "1/4 BSF"},
		{"1/4in BSF", "1/4 BSF"},
		{"1/4” BSF", "1/4 BSF"},
		{"1/4'' B.S.F.", "1/4 BSF"},
		{"BSF 1/4", "1/4 BSF"},
		{"1/8 whit", "1/8 BSW"},
		{"1/8 Whit.", "1/8 BSW"},
		{"W. 1/8", "1/8 BSW"},
		{"1 BSW", "1 BSW"},
		{"1/4 x 40", "1/4x40 ME"},
		{"1/4x40 ME", "1/4x40 ME"},
		{"1/4 x 40 tpi", "1/4x40 ME"},
		{"1/8x40", "1/8x40 ME"},
		{"1/4 x 32 M.E.", "1/4x32 ME"},
		{"3/16 x 40 model engineer", "3/16x40 ME"},
		{"ME 3/16x40", "3/16x40 ME"},
		{"3/8-26 BSB", "3/8 BSB"},
		{"3/8 brass", "3/8 BSB"},
		{"7/16 x 20 cycle", "7/16x20 BSC"},
		{"G1/8", "G 1/8"},
		{"G 1/8-28", "G 1/8"},
		{"1/8 BSPP", "G 1/8"},
		{"Rc 1/8", "R 1/8"},
		{"Rp 1/8", "R 1/8"},
		{"1/8 BSPT", "R 1/8"},
		{"1/8 NPT", "1/8-27 NPT"},
		{"1/8-27 NPT", "1/8-27 NPT"},
		{"NPT 1 1/4", "1 1/4-11.5 NPT"},
		{"Tr 10x2", "Tr 10x2"},
		{"tr10x2", "Tr 10x2"},
		{"1-5 Acme", "1-5 Acme"},
		{"19/64-36 UNS", "19/64-36 UNS"},
		{"8-40 UNS", "0.164-40 UNS"},
		{"9.0-6 UNS", "9.0-6 UNS"}, // nine inches, and no screw number
		{"1.0-48 UNS", "1.0-48 UNS"},
		{"1-10 UNS", "1-10 UNS"},
		{"5/16x30 Whitworth", "5/16x30 Whitworth"},
		{"1x40 Whitworth", "1x40 Whitworth"},
		{"M7.3x0.4 special", "M7.3x0.4 special"},
	} {
		got, err := thread.Parse(test.text)
		if err != nil || got.Designation() != test.want {
			t.Errorf("Parse(%q) = %v, %v; want %s", test.text, got, err, test.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, test := range []struct {
		text string
		want error
		says string
	}{
		{"", units.ErrSyntax, "empty"},
		{"hello", units.ErrSyntax, "accepted"},
		{"1/4", units.ErrAmbiguous, "1/4-20 UNC, 1/4-28 UNF, 1/4-32 UNEF, 1/4 BSW, 1/4 BSF, " +
			"1/4x40 ME, 1/4x32 ME, 1/4 BSB, 1/4x26 BSC"},
		{"1/4 x 20", units.ErrAmbiguous, "1/4-20 UNC, 1/4 BSW"},
		{"1/4-26", units.ErrAmbiguous, "1/4 BSF, 1/4 BSB, 1/4x26 BSC"},
		{"#4", units.ErrAmbiguous, "4-40 UNC, 4-48 UNF"},
		{"1 UNC", units.ErrAmbiguous, "1-64 UNC, 1-8 UNC"},
		{`2" UNF`, units.ErrUnknown, "near it: 1 1/2-12 UNF"}, // 2 inches, and not number 2
		{`#4" UNC`, units.ErrSyntax, "a screw number is no number of inches"},
		{"1/8 BSP", units.ErrAmbiguous, "G 1/8, R 1/8"},
		{"7/16 BSC", units.ErrAmbiguous, "7/16x26 BSC, 7/16x20 BSC"},
		{"0", units.ErrAmbiguous, "0-80 UNF, 0 BA"},
		{"3/16-24", units.ErrAmbiguous, "add the series; near it: 3/16 BSW"},
		{"1/8-28 B.S.P.", units.ErrAmbiguous, "G 1/8, R 1/8"},
		{"1 1/4 BSP", units.ErrAmbiguous, "near it: G 1 1/4"},
		{"1-56 UNS", units.ErrAmbiguous, "inches or a screw number"},
		{"M3x0.4", units.ErrUnknown, "M3x0.35, M3x0.5"},
		{"1/4-30 BSW", units.ErrUnknown, `write "1/4x30 Whitworth" for this size of the Whitworth form; near it: 1/4 BSW, 1/4x30 Whitworth`},
		{"W 1/4x24", units.ErrUnknown, `write "1/4x24 Whitworth" for this size of the Whitworth form`},
		{"1/4-24 BSF", units.ErrUnknown, `write "1/4x24 Whitworth"`},
		{"1/4-21 UNF", units.ErrUnknown, `write "1/4-21 UNS" for this size of the Unified form`},
		{"M6x0.9", units.ErrUnknown, `write "M6x0.9 special" for this size of the ISO metric form`},
		{"Tr 10x2.5", units.ErrUnknown, `write "Tr 10x2.5 special"`},
		{"1-6.5 Acme", units.ErrUnknown, `write "1-6.5 Acme special"`},
		{"4-30 UNC", units.ErrUnknown, "no such pitch is listed on this diameter; near it: 4-40 UNC"}, // too coarse for any form
		{"3/8x24 BSC", units.ErrUnknown, "no such pitch is listed on this diameter; near it: 3/8x26 BSC"},
		{"M13", units.ErrUnknown, "M12x1.75, M14x1"},
		{"M5.5", units.ErrUnknown, "M5.5x0.5, M5.5x0.75"},
		{"1/4-21 UNC", units.ErrUnknown, "1/4-20 UNC"},
		{"26 BA", units.ErrUnknown, "0 to 25"},
		{"1/4x61", units.ErrUnknown, "near it: 1/4x40 ME"},
		{"#13-40", units.ErrUnknown, "12-24 UNC"},
		{"G 1/9", units.ErrUnknown, "G 1/8"},
		{"1/8-28 NPT", units.ErrUnknown, "1/8-27 NPT"},
		{"13/32-40", units.ErrUnknown, "3/8"},
		{"13/32 BSF", units.ErrUnknown, "near it: 3/8 BSF, 7/16 BSF"},
		{"4 BSF", units.ErrUnknown, "1 1/2 BSF"},
		{"M6-6H", units.ErrSyntax, "tolerance class or the hand stands with it; give the thread alone; near it: M6x1"},
		{"M6x1-6g-LH", units.ErrSyntax, "near it: M6x1"},
		{"1/4-20 UNC-2A", units.ErrSyntax, "near it: 1/4-20 UNC"},
		{"1/4-20 UNC LH", units.ErrSyntax, "near it: 1/4-20 UNC"},
		{"G 1/8 A", units.ErrSyntax, "near it: G 1/8"},
		{"Tr10x2LH", units.ErrSyntax, "near it: Tr 10x2"},
		{"Tr 10x3(P1.5)", units.ErrSyntax, "several starts; give its pitch for the lead; near it: Tr 10x1.5"},
		{"Tr 40x14 (P7) LH", units.ErrSyntax, "near it: Tr 40x7"},
		{"M16xPh3P1.5", units.ErrSyntax, "near it: M16x1.5"},
		{"M3 X 0,5", units.ErrSyntax, "a comma in the number; write a point for the decimal; near it: M3x0.5"},
		{"M3 0.5", units.ErrSyntax, "near it: M3x0.5"},
		{"3x0.5", units.ErrSyntax, "near it: M3x0.5"},
		{"3 mm", units.ErrSyntax, "near it: M3x0.5"},
		{"M6 fine", units.ErrSyntax, "near it: M6x0.5, M6x0.75, M6x1"},
		{"OBA", units.ErrSyntax, "near it: 0 BA"},
		{"1/4 20 UNC", units.ErrSyntax, "near it: 1/4-20 UNC"},
		{"10-32 NF-2", units.ErrSyntax, "near it: 10-32 UNF"},
		{"1/8 NPTF", units.ErrSyntax, "near it: 1/8-27 NPT"},
		{"1/8 pipe", units.ErrSyntax, "near it: G 1/8, R 1/8, 1/8-27 NPT"},
		{"00-90", units.ErrSyntax, "below 0"},
		{strings.Repeat("1,", 5000) + "1", units.ErrSyntax, "accepted"},
		{"1/4-0 UNC", units.ErrSyntax, "zero"},
		{"M-3", units.ErrSyntax, "accepted"},
		{"M3x-0.5", units.ErrSyntax, "accepted"},
		{"MNaN", units.ErrSyntax, "accepted"},
		{"No. 4.5-40", units.ErrSyntax, "whole number"},
		{"M6 coarse", units.ErrSyntax, "near it: M6x1"},
		{"Mf 6x0.75", units.ErrSyntax, "near it: M6x0.75"},
		{"M6/0.75", units.ErrSyntax, "near it: M6x0.75"},
		{"3 mm x 0.5 mm", units.ErrSyntax, "near it: M3x0.5"},
		{"1 1/8 7", units.ErrSyntax, "near it: 1 1/8-7 UNC"},
		{"1/4-28 UNJF", units.ErrSyntax, "near it: 1/4-28 UNF"},
		{"PT 1/8", units.ErrSyntax, "near it: R 1/8"},
		{"PF 1/8", units.ErrSyntax, "near it: G 1/8"},
		{"1/8 gas", units.ErrSyntax, "near it: G 1/8, R 1/8"},
		{"M16xPh 3 P 1.5-6H", units.ErrSyntax, "near it: M16x1.5"},
		{"1/4-20 UNC 2A left", units.ErrSyntax, "near it: 1/4-20 UNC"},
		{"#4.5-40", units.ErrSyntax, "whole number"},
		{"M3x2 special", units.ErrUnknown, "0.05 mm to 0.750 mm"},
		{"1/4-20 special", units.ErrSyntax, "special goes with"},
	} {
		_, err := thread.Parse(test.text)
		if !errors.Is(err, test.want) || !strings.Contains(err.Error(), test.says) {
			t.Errorf("Parse(%q): %v; want %v saying %q", test.text, err, test.want, test.says)
		}
	}
}

func TestDesignationsReadBack(t *testing.T) {
	for s := thread.MetricCoarse; s <= thread.Acme; s++ {
		for th := range s.All() {
			if back, err := thread.Parse(th.Designation()); err != nil || back != th {
				t.Errorf("%v %q reads back as %v, %v", s, th.Designation(), back, err)
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"M3x0.35", `1/4"-20 UNC`, "#4-40", "BA 2", "1/4 x 40", "Rc 1/8", "1 1/4-11.5 NPT", "Tr 10x2", "19/64-36 UNS",
		"M7.3x0.4 special", "5/16x30 Whitworth", "1-7 Acme special", "M6x1-6g-LH", "Tr 10x3(P1.5)", "M3 X 0,5", "1/8 pipe",
		"1/4 20 UNC", "mf 6x0.75", "10-32 NF-2", "rp 1/8", "1/8 nptf", "3 mm", "oba", "1/4-28 UNJF",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		th, err := thread.Parse(s)
		if err != nil {
			var parse *units.ParseError
			if !errors.As(err, &parse) {
				t.Fatalf("%q: error of type %T", s, err)
			}
			return
		}
		if th.Root().Sign() <= 0 || th.Root().Cmp(th.Minor()) > 0 ||
			th.Minor().Cmp(th.PitchDiameter()) >= 0 || th.PitchDiameter().Cmp(th.Major()) >= 0 {
			t.Fatalf("%q: diameters out of order: %v %v %v %v", s, th.Major(), th.PitchDiameter(), th.Minor(), th.Root())
		}
		if back, err := thread.Parse(th.Designation()); err != nil || back != th {
			t.Fatalf("%q is %q, which is %v, %v", s, th.Designation(), back, err)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{
		"M3", "M3x0.5", "1/4-20 UNC", "4-40", "2 BA", "1/4 x 40 ME", "3/8 BSF", "G 1/8", "1/8 NPT", "Tr 10x2", "1-5 Acme",
		"1 1/8-7 UNC", "19/64-36 UNS", "M7.3x0.4 special",
	} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := thread.Parse(text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

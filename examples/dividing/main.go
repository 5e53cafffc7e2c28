// Dividing says how to turn the crank of a dividing head or rotary table for a
// number of divisions or an angle: whole turns and spaces on a circle of the
// plates that are there, and the nearest when it cannot be had.
//
//	go run ./examples/dividing -plates "15 16 17 18 19 20 / 21 23 27 29 31 33" 7
//	go run ./examples/dividing -angle 22.5deg
//	go run ./examples/dividing -table -ratio 90 -d "40 mm" 7
//
// It exits with 1 when the plates do not give the number, and with 2, and
// nothing but the reason, when it was asked something it cannot answer.
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strconv"

	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/speeds/setting"
	"github.com/valvechest/valvechest/units"
)

func main() { os.Exit(cli.Run(run)) }

func run(args []string, stdout, stderr io.Writer) int {
	var angle units.Angle
	var diameter units.Length
	flags := flag.NewFlagSet("dividing", flag.ContinueOnError)
	flags.SetOutput(stderr)
	ratio := flags.Int("ratio", 40, "`turns` of the crank for one of the work")
	plates := flags.String("plates", "two-sided", "`circles` of the plates, such as \"15 16 17 / 21 23 27\", or \"two-sided\" (24 to 66) or \"three\" (15 to 49)")
	table := flags.Bool("table", false, "a rotary table without plates: every position in degrees and turns of the handwheel")
	flags.Func("angle", "an `angle` of the work in place of a number, such as 22.5deg or 22°30'", func(s string) error { return angle.UnmarshalText([]byte(s)) })
	flags.Func("d", "`diameter` of the circle, for the chord to set dividers to", func(s string) error { return diameter.UnmarshalText([]byte(s)) })
	flags.Usage = func() {
		fmt.Fprintln(stderr, "usage: dividing [flags] NUMBER, or dividing [flags] -angle ANGLE; -h lists the flags")
	}
	switch err := flags.Parse(args); {
	case err == flag.ErrHelp:
		flags.PrintDefaults()
		return 0
	case err != nil:
		return 2
	}
	var out bytes.Buffer
	err := answer(&out, flags.Args(), *ratio, *plates, *table, angle, diameter)
	had := err == nil
	if err != nil && !errors.Is(err, dividing.ErrNotDivisible) {
		fmt.Fprintln(stderr, "dividing:", err)
		return 2
	}
	if _, err := stdout.Write(out.Bytes()); err != nil {
		fmt.Fprintln(stderr, "dividing:", err)
		return 2
	}
	if !had {
		return 1
	}
	return 0
}

// answer writes what was asked. It returns dividing.ErrNotDivisible when only
// the nearest could be written.
func answer(
	w io.Writer, args []string, ratio int, plates string, table bool, angle units.Angle, diameter units.Length,
) error {
	if angle == 0 && len(args) != 1 || angle != 0 && len(args) != 0 {
		return errors.New("accepted: one number of divisions, such as 7, or -angle and no number")
	}
	set := dividing.TwoSidedPlate()
	switch plates {
	case "two-sided":
	case "three":
		set = dividing.ThreePlates()
	default:
		circles, err := dividing.ParseCircles(plates)
		if err != nil {
			return err
		}
		set = dividing.Plates{Circles: circles}
	}
	source := "circles as given"
	if !set.Refs.IsZero() {
		source = fmt.Sprintf("circles of the %s: %v", set.Name, set.Refs)
	}
	switch {
	case table && angle != 0:
		return errors.New("-table lists the positions of a number of divisions; accepted: a number, or -angle without -table")
	case table && plates != "two-sided":
		return errors.New("-table is for a rotary table without plates; accepted: -table or -plates")
	case angle != 0 && !diameter.IsZero():
		return errors.New("-d goes with a number of divisions, for the chord")
	}
	head, err := dividing.NewHead(ratio, set.Circles...)
	if err != nil {
		return err
	}
	if angle != 0 {
		return byAngle(w, head, angle, source)
	}
	n, err := strconv.Atoi(args[0])
	if err != nil {
		return fmt.Errorf("%q is not a whole number of divisions", args[0])
	}
	if diameter.IsZero() {
		return byNumber(w, head, n, table, source)
	}
	chord, err := setting.Chord(diameter, n)
	if err != nil {
		return err
	}
	err = byNumber(w, head, n, table, source)
	if err == nil || errors.Is(err, dividing.ErrNotDivisible) {
		fmt.Fprintf(w, "chord   d sin(180 / n) = %s x sin(180 / %d) = %s (%s)\n", diameter, n, chord.Text(units.Millimetres, 3), chord.Text(units.Thousandths, 1))
	}
	return err
}

func byNumber(w io.Writer, head dividing.Head, n int, table bool, source string) error {
	if table {
		all, err := dividing.TablePositions(head.Ratio(), n)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "%d divisions on a %d:1 table, %.4g degrees a turn of the handwheel\n", n, head.Ratio(), 360/float64(head.Ratio()))
		for i, p := range all {
			fmt.Fprintf(w, "%5d   %v\n", i+1, p)
		}
		fmt.Fprintln(w, "come to each of them turning the same way: that takes up the backlash")
		return nil
	}
	all, err := head.Divide(n)
	if err != nil && !errors.Is(err, dividing.ErrNotDivisible) {
		return err
	}
	fmt.Fprintf(w, "turns = ratio / n = %d / %d = %.6g\n", head.Ratio(), n, float64(head.Ratio())/float64(n))
	for _, s := range all {
		fmt.Fprintf(w, "set     %v\n", s)
	}
	if err != nil {
		near, err := head.Nearest(n)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "nearest %v\n", near.Setting)
		for _, f := range near.Findings {
			fmt.Fprintln(w, "- "+f.Text)
			for _, remedy := range f.Remedies {
				fmt.Fprintln(w, "  > "+remedy)
			}
		}
	}
	fmt.Fprintln(w, source)
	return err
}

func byAngle(w io.Writer, head dividing.Head, angle units.Angle, source string) error {
	s, off, err := head.Angle(angle)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "turns = angle x ratio / 360 = %.6g x %d / 360 = %.6g\n", angle.Degrees(), head.Ratio(), angle.Degrees()*float64(head.Ratio())/360)
	fmt.Fprintf(w, "set     %v\n", s)
	if off != 0 {
		fmt.Fprintf(w, "        out by %+.2f arc minutes: no circle has it exactly\n", off.In(units.ArcMinute))
	}
	fmt.Fprintln(w, source)
	return nil
}

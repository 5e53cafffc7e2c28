package main

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"
)

func do(args ...string) (code int, out, errs string) {
	var stdout, stderr bytes.Buffer
	code = program().Do(args, &stdout, &stderr)
	return code, strings.Join(strings.Fields(stdout.String()), " "), stderr.String()
}

// What builders ask, from the command line. Figures in wants are worked by hand
// from n = 1000 V / (pi d) and 12 V / (pi d), or common practice.
func TestQuestions(t *testing.T) {
	for _, tt := range []struct {
		name  string
		args  []string
		code  int
		wants []string
	}{
		{"a step of a cone with back gear", []string{"-machine", "cone 720 450 280 175, back gear 6.5:1", "-d", "80 mm", "-material", "cast iron", "facing"}, 0,
			[]string{"1000 x 22 / (3.1416 x 80) = 87.54 rev/min", "43.08 rev/min 10.8 m/min cone step 3, back gear 69.23 rev/min 17.4 m/min cone step 2, back gear 110.8 rev/min 27.8 m/min", "set 110.8 rev/min cone step 1, back gear the edge meets 27.8 m/min 91 ft/min", "University tutorial sheet", "Lubricant: Dry.", "feed 0.127 to 0.254 mm 5.0 to 10.0 thou per rev"}},
		{"a flywheel on a lathe that is too fast", []string{"-machine", "450 280 175", "-d", "150 mm", "-material", "cast iron, skin on", "facing"}, 1,
			[]string{"WILL NOT WORK - The machine does not run slowly enough: at its slowest, 175 rev/min", "82.5 m/min (271 ft/min)", "> Take back gear", "mandrel handle", "under the skin", "from memory"}},
		{"SP-01 a 6 in flywheel at 60 ft/min", []string{"-d", "6 in", "-v", "60 ft/min", "-n", "50 rev/min", "-material", "iron casting", "facing"}, 0,
			[]string{"= 38.2 rev/min", "23.9 m/min (79 ft/min)", "COSTS POWER OR LIFE - At 50 rev/min the edge meets 23.9 m/min (79 ft/min), 1.3 times the most"}},
		{"boring the hub of it", []string{"-machine", "50 100 250 600", "-d", "1 in", "-material", "cast iron", "boring"}, 0,
			[]string{"set 250 rev/min", "Pocket-Book"}},
		{"SP-02 parting 3.77 in tool steel", []string{"-machine", "100 200 400", "-d", "3.77 in", "-material", "D2", "-v", "25 ft/min", "-reach", "23 mm", "parting"}, 1,
			[]string{"= 25.33 rev/min", "blade reaches 23 mm", "nothing at the centre", "Saw the bar and face the end", "at its slowest, 100 rev/min"}},
		{"SP-02 parting 2 1/2 in mild steel", []string{"-machine", "50-2000", "-d", "2.5 in", "-material", "mild steel", "-v", "50 ft/min", "parting"}, 0,
			[]string{"= 76.39 rev/min", "set 76 rev/min", "time of a pass 8m45s", "jams more often than it succeeds. [", "Saw the bar and face the end"}},
		{"SP-03 a drill that snatches in brass", []string{"-machine", "50-4000", "-d", "5 mm", "-material", "brass", "-v", "60 m/min", "drilling"}, 0,
			[]string{"= 3820 rev/min", "drill point 130 deg slow helix, for brass [", "lip clearance 10 to 12 deg", "Carvill", "hole 4.97 to 5.13 mm 0.1959 to 0.2019 in [", "Air Force-Navy", "flat about 0.8 mm (1/32 in) wide on each cutting lip, parallel to the axis", "Break-through"}},
		{"SP-04 a drill that went blue", []string{"-d", "12 mm", "-material", "mild steel", "-n", "2800 rev/min", "drilling"}, 0,
			[]string{"drill point 118 deg as drills are sold", "above the formula by -6.3 %", "n = 10,000 / D = 10,000 / 12 = 833.3 rev/min, D in mm", "v = pi d n / 1000 = 3.1416 x 12 x 2800 / 1000 = 105.6 m/min", "the edge meets 105.6 m/min (346 ft/min), 3.1 times the most", "24.4 to 33.5 m/min"}},
		{"SP-05 which drill before a 6 mm reamer", []string{"-d", "6 mm", "-material", "gunmetal", "-own", "1-13x0.1 mm", "reaming"}, 0,
			[]string{"take 5.7 mm from the drawer", "5.65 to 5.75 mm", "from the drawer 5.7 mm", "never below 5.21 mm", "feed by feel", "A hand reamer is turned by hand"}},
		{"a reamer in gunmetal", []string{"-machine", "59 100 210 355 600 1000 2000", "-d", "5 mm", "-material", "gunmetal", "reaming"}, 0,
			[]string{"set 210 rev/min by power", "cutting speed 4.5 m/min", "printed for phosphor bronze with HSS", "Sources differ twofold and more: elsewhere it is 20.1 to 45.7 m/min", "This is the slowest of them"}},
		{"a reamer as fast as a drill", []string{"-n", "2000 rev/min", "-d", "5 mm", "-length", "10 mm", "-material", "gunmetal", "reaming"}, 0,
			[]string{"7.0 times the most for gunmetal with HSS: a reamer chatters there", "The time is not known where the feed is not."}},
		{"SP-05 which drill before a 1/4 in reamer", []string{"-d", "1/4 in", "-material", "gunmetal", "-own", "1-13x0.1 mm, 1/16-1/2x1/64 in", "reaming"}, 0,
			[]string{"take 6.1 mm from the drawer", "6.00 to 6.10 mm", "from the drawer 6 mm, 6.1 mm", "15/64 in", "never below 5.56 mm"}},
		{"SP-06 old books", []string{"-d", "1 in", "-material", "brass", "-tool", "carbon steel", "turning"}, 0,
			[]string{"= 95.49 rev/min", "= 191 rev/min", "Zerbe, Practical Mechanics for Boys, 1914", "with carbon steel, beginners (1914)"}},
		{"SP-06 a chart of today, low", []string{"-d", "1 in", "-material", "brass", "-v", "150 ft/min", "turning"}, 0, []string{"= 573 rev/min"}},
		{"SP-06 a chart of today, high", []string{"-d", "1 in", "-material", "brass", "-v", "300 ft/min", "turning"}, 0, []string{"= 1146 rev/min"}},
		{"SP-07 a flywheel that does not swing", []string{"-d", "10.7 in", "-material", "cast iron, skin on", "-centre", "5 in", "-v", "40 ft/min", "-overhang", "4 in", "-section", "1/2 in", "facing"}, 1,
			[]string{"= 14.28 rev/min", "no speed refused", "does not swing: its radius 135.89 mm (5.35 in) is more than the centre height 127 mm (5 in)", "Halve the depth of cut and the speed and raise the feed"}},
		{"the same wheel in its engine, far too fast", []string{"-d", "27 in", "-material", "cast iron", "-wheel", "1000 rev/min", "facing"}, 1,
			[]string{"CAN HURT SOMEBODY - The wheel may fly apart", "7069 ft/min", "not over 672 rev/min", "> Make the wheel smaller.", "Stand out of the plane of the wheel"}},
		{"minutes and motor", []string{"-machine", "60 110 200 360", "-d", "40 mm", "-material", "mild steel", "-length", "50 mm", "-cut", "3 mm", "-motor", "100 W", "turning"}, 1,
			[]string{"t = (l + approach) / (f n) = (50 + 2.00) / (0.076 x 200) = 3m25s a pass", "296 W at the motor of 100 W", "WILL NOT WORK - The cut takes 296 W at the motor of 100 W", "stalls", "VDI 3323"}},
		{"a deep hole", []string{"-machine", "400 800 1600", "-d", "6 mm", "-material", "mild steel", "-depth", "30 mm", "drilling"}, 0,
			[]string{"30 % off the speed, 20 % off the feed", "set 800 rev/min", "(30 + 1.80)", "drill down to 31.80 mm 1.252 in at the tip, point 118 deg", "its tip is 1.8 mm deeper"}},
		{"all that is published", []string{"-d", "20 mm", "-material", "EN3", "-published", "turning"}, 0,
			[]string{"PUBLISHED FOR THIS PAIRING", "30.5 to 76.2 m/min", "upper limit"}},
		{"nothing published", []string{"-d", "20 mm", "-material", "EN1A", "-published", "turning"}, 0,
			[]string{"None was read for the pairing itself", "as mild steel: it cuts at least as freely"}},
		{"a marked chuck", []string{"-machine", "500 1000 2000 4000", "-d", "6 mm", "-material", "brass", "-chuck", "2500 rev/min", "turning"}, 0,
			[]string{"set 2000 rev/min", "Keep it not above 2500 rev/min: the speed marked on the chuck; the edge alone would stand 6366 rev/min. [", "Lathe manufacturer's manual"}},
		{"the force in it", []string{"-machine", "60 110 200 360", "-d", "40 mm", "-material", "mild steel", "-cut", "1 mm", "-motor", "300 W", "turning"}, 0,
			[]string{"F = kc a f = 2318 N/mm2 x 1 x 0.076 = 177 N", "the motor carries it"}},
		{"the torque of a drill", []string{"-machine", "400 800", "-d", "10 mm", "-material", "mild steel", "-motor", "300 W", "drilling"}, 1,
			[]string{"T = kc f d^2 / 8 = 3.3 N m", "at the motor of 300 W", "the motor stalls or the belt slips", "> Take a lighter cut"}},
		{"no figure for the force", []string{"-machine", "400 800", "-d", "10 mm", "-material", "plastics", "-motor", "300 W", "drilling"}, 0,
			[]string{"We have no figure of the cutting force in plastic"}},
		{"minutes of a milling cutter", []string{"-machine", "1000 2000", "-d", "6 mm", "-material", "mild steel", "-length", "47 mm", "-teeth", "2", "milling"}, 0,
			[]string{"t = (l + approach) / (fz z n) = (47 + 3.00) / (0.025 x 2 x 1000)", "= 59s a pass"}},
		{"a table feed without a length", []string{"-machine", "1000 2000", "-d", "6 mm", "-material", "mild steel", "-teeth", "2", "milling"}, 0,
			[]string{"slide or table moves 50.8 mm/min 2.00 in/min"}},
		{"minutes without the teeth", []string{"-machine", "1000 2000", "-d", "6 mm", "-material", "mild steel", "-length", "47 mm", "milling"}, 0,
			[]string{"say -teeth"}},
		{"minutes without a machine", []string{"-d", "6 mm", "-material", "mild steel", "-length", "47 mm", "turning"}, 0,
			[]string{"say -machine"}},
		{"a feed of another metal", []string{"-d", "20 mm", "-material", "gunmetal", "turning"}, 0,
			[]string{"lathe feed table", "per rev, as bearing bronze"}},
		{"work set over", []string{"-machine", "60 200 600", "-d", "160 mm", "-material", "mild steel", "-mass", "2 kg", "-offset", "20 mm", "facing"}, 0,
			[]string{"F = m e w^2 = 2 kg x 20 mm x (60 rev/min)^2 = 1.58 N", "balanced by 0.50 kg opposite from the axis 80.00 mm 3.150 in"}},
		{"a chuck without a mark", []string{"-machine", "200 1000 3000", "-d", "6 mm", "-material", "brass", "-unmarked", "125 mm", "turning"}, 0,
			[]string{"set 1000 rev/min", "not above 2291 rev/min: an iron chuck with no speed marked on it", "(from memory)", "from memory: marks on iron-bodied chucks"}},
		{"a chuck above its mark", []string{"-machine", "500 1000 2000 4000", "-d", "6 mm", "-material", "brass", "-chuck", "2500 rev/min", "-n", "3000 rev/min", "turning"}, 1,
			[]string{"CAN HURT SOMEBODY - Do not run it. 3000 rev/min is above the limit of 2500 rev/min (the speed marked on the chuck)."}},
		{"a machine that is too fast for the chuck", []string{"-machine", "800 1600", "-d", "6 mm", "-material", "brass", "-chuck", "500 rev/min", "turning"}, 1,
			[]string{"CAN HURT SOMEBODY - Do not run it. The machine does not run slowly enough: its slowest, 800 rev/min, is above the limit of 500 rev/min"}},
		{"a dial", []string{"-machine", "50-5000", "-d", "2 mm", "-material", "cast iron", "milling"}, 0,
			[]string{"set 4770 rev/min on the dial, rounded down to 10 rev/min", "= 4775 rev/min"}},
		{"a dial at the mark of the chuck", []string{"-machine", "50-5000", "-d", "6 mm", "-material", "brass", "-chuck", "2500 rev/min", "turning"}, 0,
			[]string{"set 2500 rev/min"}},
		{"a thread for the hand", []string{"-machine", "60 200 600", "-d", "3 mm", "-material", "brass", "tapping"}, 0,
			[]string{"no speed by hand", "feed by the pitch of the thread"}},
		{"a drill that has no feed", []string{"-machine", "500 4000", "-d", "0.3 mm", "-material", "brass", "drilling"}, 0,
			[]string{"set 4000 rev/min", "feed we have figures for 0.0135 in (0.34 mm) and larger"}},
		{"no machine", []string{"-d", "6 mm", "-material", "brass", "turning"}, 0, []string{"WORTH KNOWING ------------------------------------------------------------------------------ - No machine was given"}},
		{"SP-10 M3 in iron with the power on", []string{"-machine", "50 110 200 360 600 1000 2000", "-d", "3 mm", "-material", "cast iron", "tapping"}, 0,
			[]string{"no speed by hand diameter", "Taps up to 4 mm are turned by hand, the motor isolated: no speed is set.", "guide the tap upright, in the tailstock"}},
		{"SP-10 M3 running", []string{"-n", "2000 rev/min", "-d", "3 mm", "-material", "cast iron", "tapping"}, 1,
			[]string{"CAN HURT SOMEBODY - Do not run it. Taps up to 4 mm are turned by hand, and this one would run at 2000 rev/min"}},
		{"a die of 12 mm", []string{"-machine", "50 110", "-d", "12 mm", "-material", "mild steel", "die cutting"}, 0, []string{"no speed by hand", "Dies are turned by hand"}},
		{"a tap over M4", []string{"-machine", "50 110 200", "-d", "6 mm", "-material", "cast iron", "tapping"}, 0,
			[]string{"set 50 rev/min by power", "Keep it not above 100 rev/min: a tap that binds or comes to the bottom breaks"}},
		{"a tap over M4 on a fast machine", []string{"-machine", "500 1000", "-d", "6 mm", "-material", "cast iron", "tapping"}, 1,
			[]string{"its slowest, 500 rev/min, is above the limit of 100 rev/min", "> Tap by hand"}},
		{"SP-10 a thread to a shoulder", []string{"-machine", "50 110 200 360", "-d", "10 mm", "-pitch", "1.5 mm", "-length", "12 mm", "-material", "mild steel", "screwcutting"}, 0,
			[]string{"set 50 rev/min", "the tool goes 1.25 mm/s along the thread at 50 rev/min to the shoulder 9.6 s", "not above 80 rev/min: the tool then goes 2 mm a second"}},
		{"SP-10 a thread at 360 rev/min", []string{"-n", "360 rev/min", "-d", "10 mm", "-pitch", "1.5 mm", "-length", "12 mm", "-material", "mild steel", "screwcutting"}, 1,
			[]string{"CAN HURT SOMEBODY - Do not run it. 360 rev/min is above the limit of 80 rev/min", "the tool goes 9.00 mm/s", "to the shoulder 1.3 s", "> Turn the spindle with a mandrel handle"}},
		{"a lathe too fast for the thread", []string{"-machine", "110 200", "-d", "10 mm", "-pitch", "16 tpi", "-material", "mild steel", "screwcutting"}, 1,
			[]string{"its slowest, 110 rev/min, is above the limit of 75.5 rev/min", "mandrel handle", "say how long the thread is"}},
		{"slow is above the mark", []string{"-chuck", "1000 rev/min", "-n", "1500 rev/min", "-d", "6 mm", "-material", "brass", "turning"}, 1,
			[]string{"CAN HURT SOMEBODY - Do not run it. 1500 rev/min is above the limit of 1000 rev/min"}},
		{"slow is above the limit of an unmarked chuck", []string{"-unmarked", "125 mm", "-n", "2400 rev/min", "-d", "6 mm", "-material", "brass", "drilling"}, 1,
			[]string{"Do not run it. 2400 rev/min is above the limit of 2291 rev/min"}},
		{"the force at the speed that runs", []string{"-n", "2000 rev/min", "-machine", "500", "-d", "60 mm", "-material", "brass", "-mass", "3 kg", "-offset", "20 mm", "turning"}, 1,
			[]string{"CAN HURT SOMEBODY - Do not run it. 2000 rev/min is above the limit of 668 rev/min (the work, out of balance, then pulls with ten times its weight",
				"F = m e w^2 = 3 kg x 20 mm x (2000 rev/min)^2 = 2632 N", "pulls round and round with 2632 N, 89.5 times its own weight", "keep it below 211 rev/min"}},
		{"work set over on a machine that is too fast for it", []string{"-machine", "900 1000", "-d", "60 mm", "-material", "brass", "-mass", "2 kg", "-offset", "30 mm", "facing"}, 1,
			[]string{"its slowest, 900 rev/min, is above the limit of 545 rev/min", "at most 637 rev/min here"}},
		{"a tap over M4 and no machine", []string{"-d", "6 mm", "-material", "cast iron", "tapping"}, 0,
			[]string{"not above 100 rev/min the edge alone stands 1132 rev/min", "no step was chosen: whatever the edge would stand, 100 rev/min is the most."}},
		{"a thread and no machine", []string{"-d", "1/4 in", "-pitch", "40 tpi", "-material", "brass", "screwcutting"}, 0,
			[]string{"not above 188 rev/min", "the tool goes 1.99 mm/s along the thread at 188 rev/min", "Keep it not above 188 rev/min"}},
		{"M4 in inches", []string{"-machine", "50-2000", "-d", "0.1575 in", "-material", "mild steel", "tapping"}, 0, []string{"no speed by hand"}},
		{"a chain by a drill that is made", []string{"-machine", "100-2800", "-d", "1/16 in", "-width", "3/32 in", "-material", "gunmetal", "-length", "3/8 in", "-depth", "1/8 in", "slot milling"}, 0,
			[]string{"chain drill first 2.10 mm"}},
		{"one other figure for reaming", []string{"-d", "6 mm", "-material", "stainless steel", "reaming"}, 0, []string{"elsewhere it is 10.7 m/min (the fastest"}},
		{"a table feed without the teeth", []string{"-machine", "100-2000", "-d", "10 mm", "-material", "mild steel", "milling"}, 0,
			[]string{"slide or table moves 28.2 mm/min 1.11 in/min for each tooth of the cutter"}},
		{"a fly cutter and no machine", []string{"-d", "2 1/2 in", "-material", "aluminium", "fly cutting"}, 0,
			[]string{"slide or table moves 95.5 mm/min 3.76 in/min at 751.9 rev/min"}},
		{"a table feed at the speed that runs", []string{"-machine", "100-2000", "-n", "300 rev/min", "-d", "2 1/2 in", "-material", "aluminium", "fly cutting"}, 0,
			[]string{"slide or table moves 38.1 mm/min 1.50 in/min at 300 rev/min"}},
		{"minutes at the speed that runs", []string{"-n", "1000 rev/min", "-teeth", "4", "-length", "20 mm", "-d", "10 mm", "-material", "mild steel", "milling"}, 0,
			[]string{"slide or table moves 101.6 mm/min", "(20 + 5.00) / (0.025 x 4 x 1000)"}},
		{"no minutes of what is refused", []string{"-n", "1000 rev/min", "-chuck", "900 rev/min", "-length", "20 mm", "-d", "10 mm", "-material", "mild steel", "turning"}, 1,
			[]string{"Time and motor are not told of what is refused."}},
		{"the force at the limit", []string{"-chuck", "300 rev/min", "-d", "60 mm", "-material", "brass", "-mass", "3 kg", "-offset", "20 mm", "turning"}, 0,
			[]string{"F = m e w^2 = 3 kg x 20 mm x (300 rev/min)^2 = 59.2 N"}},
		{"the rim of a wheel on the lathe", []string{"-n", "4000 rev/min", "-wheel", "600 rev/min", "-d", "150 mm", "-material", "cast iron", "facing"}, 1,
			[]string{"Do not run it. 4000 rev/min is above the limit of 3073 rev/min (the rim of the wheel"}},
		{"SP-08 a port of 2 mm in iron", []string{"-machine", "100-6000", "-d", "2 mm", "-material", "cast iron", "-tool", "carbide", "-length", "31.75 mm", "-depth", "12 mm", "-teeth", "2", "slot milling"}, 0,
			[]string{"set 6000 rev/min the edge meets 37.7 m/min", "spindle 2865 to 8594 rev/min", "depth of a pass 0.25 mm 10 thou 0.25 to 0.4 mm for this cutter", "per tooth",
				"slide or table moves 48.0 mm/min 1.89 in/min", "cutting time 29m45s passes 48"}},
		{"a slot by the other word of the trade", []string{"-machine", "100-6000", "-d", "2 mm", "-material", "cast iron", "-tool", "carbide", "slot drilling"}, 0,
			[]string{"Slot milling", "set 6000 rev/min"}},
		{"SP-08 slower than the range", []string{"-machine", "100-2000", "-d", "2 mm", "-material", "cast iron", "-tool", "carbide", "slot milling"}, 0,
			[]string{"set 2000 rev/min", "below the range: it does no harm", "> Keep the feed per tooth, so that the table goes slower in proportion"}},
		{"SP-08 a millimetre and a half at once", []string{"-machine", "100-2000", "-d", "2 mm", "-material", "cast iron", "-length", "10 mm", "-width", "2 mm", "-depth", "3 mm", "-cut", "1.5 mm", "-teeth", "2", "slot milling"}, 1,
			[]string{"no speed refused", "WILL NOT WORK - A pass of 1.5 mm is too deep for a slot drill of 2 mm", "> Take 0.25 mm a pass to begin with, 0.4 mm at most.", "The cutter of 2 mm is as wide as the slot"}},
		{"a port with a smaller cutter", []string{"-machine", "100-2000", "-d", "1.5 mm", "-material", "cast iron", "-length", "10 mm", "-width", "2 mm", "-depth", "3 mm", "-own", "1-13x0.1 mm", "-teeth", "2", "slot milling"}, 0,
			[]string{"chain drill first 1.80 mm 0.071 in at 1.00, 3.00, 5.00, 7.00, 9.00 mm from one end", "cutting time 24m0s passes 16", "16 x 18 / (0.003 x 2 x 2000)"}},
		{"SP-09 a fly cutter over the port face", []string{"-machine", "100-2000", "-d", "63 mm", "-material", "cast iron", "-length", "60 mm", "fly cutting"}, 0,
			[]string{"set 150 rev/min", "feed 0.127 to 0.254 mm 5.0 to 10.0 thou per rev", "19.1 mm/min 0.75 in/min", "time of a pass 6m27s", "stand out of the plane that it sweeps"}},
		{"SP-09 a fly cutter as an end mill", []string{"-machine", "100-2000", "-d", "63 mm", "-material", "cast iron", "-length", "60 mm", "-teeth", "1", "milling"}, 0,
			[]string{"A cutter of one tooth is a fly cutter: ask for fly cutting"}},
		{"a face mill", []string{"-machine", "100-2000", "-d", "50 mm", "-material", "cast iron", "-length", "60 mm", "-teeth", "4", "face milling"}, 0,
			[]string{"set 190 rev/min", "feed 0.051 to 0.406 mm 2.0 to 16.0 thou per tooth", "clear of the work at both ends"}},
		{"a diameter that is none", []string{"-d", "M", "-material", "brass", "tapping"}, 2, nil},
		{"tapping", []string{"-d", "3 mm", "-material", "brass", "tapping"}, 0, []string{"feed by the pitch of the thread", "Taps up to M4 and every die by hand"}},
	} {
		code, out, errs := do(tt.args...)
		if code != tt.code || (code == 2) != (errs != "") || code == 2 && out != "" {
			t.Errorf("%s: exit %d, want %d; %s", tt.name, code, tt.code, errs)
		}
		for _, want := range tt.wants {
			if !strings.Contains(out, want) {
				t.Errorf("%s: nothing of %q in\n%s", tt.name, want, out)
			}
		}
	}
}

func TestRefuses(t *testing.T) {
	for _, tt := range []struct {
		name string
		args []string
		want string
	}{
		{"no operation", []string{"-d", "80 mm", "-material", "brass"}, "countersinking"},
		{"unknown operation", []string{"-d", "80 mm", "-material", "brass", "whittling"}, `"whittling": unknown; accepted: turning`},
		{"no material", []string{"-d", "80 mm", "facing"}, "phosphor bronze"},
		{"unknown material", []string{"-d", "80 mm", "-material", "unobtainium", "facing"}, "gunmetal"},
		{"a slot over twice as wide as its cutter", []string{"-machine", "100-2000", "-d", "2 mm", "-length", "10 mm", "-width", "5 mm", "-teeth", "2", "-material", "brass", "slot milling"}, "width of the slot 5 mm: out of range; accepted: up to twice the cutter, 4 mm"},
		{"teeth of a fly cutter", []string{"-d", "63 mm", "-teeth", "2", "-material", "brass", "fly cutting"}, "-teeth goes with milling; a fly cutter has one"},
		{"the width of a bar", []string{"-d", "63 mm", "-width", "2 mm", "-material", "brass", "turning"}, "-width goes with slot milling"},
		{"a motor for milling", []string{"-d", "6 mm", "-motor", "200 W", "-material", "brass", "milling"}, "-motor goes with drilling"},
		{"what is published for a hand", []string{"-d", "3 mm", "-published", "-material", "brass", "tapping"}, "-published goes with what runs under power"},
		{"minutes of a hand", []string{"-d", "3 mm", "-length", "6 mm", "-material", "brass", "tapping"}, "-length goes with what runs under power"},
		{"work that a hand turns", []string{"-d", "10 mm", "-mass", "1 kg", "-offset", "5 mm", "-material", "brass", "die cutting"}, "-mass goes with work that turns under power"},
		{"no pitch", []string{"-d", "10 mm", "-material", "mild steel", "screwcutting"}, "-pitch LEAD: missing; accepted: that of the thread"},
		{"the pitch of a turned bar", []string{"-d", "10 mm", "-pitch", "1 mm", "-material", "mild steel", "turning"}, "-pitch goes with screwcutting"},
		{"the speed of a hand", []string{"-d", "3 mm", "-v", "3 m/min", "-material", "mild steel", "tapping"}, "-v goes with what runs under power"},
		{"no diameter", []string{"-material", "brass", "facing"}, "the largest diameter faced"},
		{"a diameter of nothing", []string{"-d", "0 mm", "-material", "brass", "facing"}, "-d: length 0 mm: out of range; accepted: above zero"},
		{"a negative diameter", []string{"-d", "-5 mm", "-material", "brass", "facing"}, "above zero"},
		{"a bare number", []string{"-d", "80", "-material", "brass", "facing"}, "without a unit"},
		{"knurling with carbide", []string{"-d", "8 mm", "-material", "brass", "-tool", "carbide", "knurling"}, "presses and does not cut"},
		{"a machine of words", []string{"-machine", "fast", "-d", "8 mm", "-material", "brass", "turning"}, "50-2500"},
		{"a reamer of half a millimetre", []string{"-d", "0.5 mm", "-material", "brass", "reaming"}, "1 mm to 100 mm"},
		{"a speed of nothing", []string{"-d", "8 mm", "-material", "brass", "-v", "-3 m/min", "turning"}, "above zero"},
		{"the hole of a wheel", []string{"-d", "6 mm", "-material", "cast iron", "-wheel", "6000 rev/min", "reaming"}, "-wheel goes with turning or facing the rim"},
		{"a wheel that stands", []string{"-d", "8 mm", "-material", "brass", "-wheel", "-1 rev/min", "turning"}, "above zero"},
		{"a length below nothing", []string{"-d", "8 mm", "-material", "brass", "-length", "-5 mm", "turning"}, "-length: length -5 mm: out of range; accepted: above zero"},
		{"a chuck that stands", []string{"-d", "8 mm", "-material", "brass", "-chuck", "0 rev/min", "turning"}, "-chuck: value 0 rev/min: out of range; accepted: above zero"},
		{"a speed of nobody", []string{"-d", "8 mm", "-material", "brass", "-v", "1e308 m/min", "turning"}, "1e-15 to 1e15"},
		{"a blade for turning", []string{"-d", "8 mm", "-material", "brass", "-reach", "5 mm", "turning"}, "-reach goes with parting"},
		{"teeth of a drill", []string{"-d", "8 mm", "-material", "brass", "-teeth", "2", "drilling"}, "-teeth goes with milling"},
		{"a cut without a motor", []string{"-d", "8 mm", "-material", "brass", "-cut", "1 mm", "turning"}, "-cut goes with"},
		{"a mass without a place", []string{"-d", "8 mm", "-material", "brass", "-mass", "1 kg", "turning"}, "and -offset"},
		{"an overhang of what", []string{"-d", "8 mm", "-material", "brass", "-overhang", "40 mm", "boring"}, "-overhang goes with -section"},
		{"a depth of nothing", []string{"-d", "8 mm", "-material", "brass", "-depth", "0 mm", "drilling"}, "-depth: length 0 mm"},
		{"a blade of nothing", []string{"-d", "8 mm", "-material", "brass", "-reach", "0 mm", "parting"}, "-reach: length 0 mm"},
		{"a lathe without height", []string{"-d", "8 mm", "-material", "brass", "-centre", "0 mm", "facing"}, "-centre: length 0 mm"},
		{"teeth of none", []string{"-d", "8 mm", "-material", "brass", "-teeth", "0", "milling"}, "-teeth: value 0"},
		{"a pairing", []string{"-d", "8 mm", "-material", "brass", "-tool", "carbide", "knurling"}, "-tool: pairing"},
		{"an own speed", []string{"-d", "8 mm", "-material", "brass", "-v", "1e308 m/min", "turning"}, "-v: cutting speed"},
		{"an unknown flag", []string{"-colour", "red"}, "-colour: no such flag"},
	} {
		code, out, errs := do(tt.args...)
		if code != 2 || out != "" || !strings.Contains(errs, tt.want) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%s: exit %d, %q, %s", tt.name, code, out, errs)
		}
	}
	if code, out, errs := do("-h"); code != 0 || errs != "" || !strings.Contains(out, "usage") {
		t.Errorf("help: exit %d, %q", code, errs)
	}
}

// A line that begins with "set" stands before a speed that is to be set, and
// before nothing else.
func TestSetIsBeforeASpeed(t *testing.T) {
	for _, args := range [][]string{
		{"-machine", "cone 720 450 280 175, back gear 6.5:1", "-d", "80 mm", "-material", "cast iron", "facing"},
		{"-machine", "450 280 175", "-d", "150 mm", "-material", "cast iron, skin on", "facing"},
		{"-machine", "60 200 600", "-d", "160 mm", "-material", "mild steel", "-mass", "2 kg", "-offset", "20 mm", "facing"},
		{"-machine", "60 200 600", "-d", "6 mm", "-material", "brass", "tapping"},
		{"-machine", "50-5000", "-d", "2 mm", "-material", "cast iron", "milling"},
		{"-d", "6 mm", "-material", "brass", "tapping"},
		{"-d", "3 mm", "-material", "cast iron", "-chuck", "500 rev/min", "tapping"},
		{"-d", "10 mm", "-material", "cast iron", "die cutting"},
	} {
		var stdout, stderr bytes.Buffer
		code := program().Do(args, &stdout, &stderr)
		count := 0
		for line := range strings.Lines(stdout.String()) {
			if fields := strings.Fields(line); len(fields) > 2 && fields[0] == "set" {
				if count++; !strings.HasPrefix(fields[2], "rev/min") {
					t.Errorf("%q: %s", args, line)
				}
			}
		}
		if want := code == 0 && args[0] == "-machine"; want != (count == 1) {
			t.Errorf("%q: exit %d, %d speeds to set in\n%s", args, code, count, stdout.String())
		}
	}
}

func TestJSON(t *testing.T) {
	type answer struct {
		Program string
		Spindle struct {
			Set    *float64 `json:"set_rev_min"`
			Wanted struct {
				Min, Max float64
			} `json:"wanted_rev_min"`
		}
		Findings []struct{ Code, Severity string }
	}
	for _, tt := range []struct {
		args   []string
		status int
		set    float64 // 0: null
		code   string  // of the first finding
	}{
		{[]string{"-machine", "cone 720 450 280 175, back gear 6.5:1", "-d", "80 mm", "-material", "cast iron", "facing"}, 0, 720 / 6.5, ""},
		{[]string{"-machine", "450 280 175", "-d", "150 mm", "-material", "cast iron, skin on", "facing"}, 1, 0, "machine-too-fast"},
		{[]string{"-machine", "50-5000", "-d", "2 mm", "-material", "cast iron", "milling"}, 0, 4770, ""},
		{[]string{"-machine", "60 200 600", "-d", "3 mm", "-material", "brass", "tapping"}, 0, 0, "by-hand"},
		{[]string{"-machine", "500 1000", "-d", "6 mm", "-material", "brass", "-chuck", "2500 rev/min", "-n", "3000 rev/min", "turning"}, 1, 1000, "above-limit"},
	} {
		var stdout, stderr bytes.Buffer
		status := program().Do(append([]string{"-json"}, tt.args...), &stdout, &stderr)
		var a answer
		if err := json.Unmarshal(stdout.Bytes(), &a); err != nil || status != tt.status || stderr.Len() > 0 || a.Program != "spindle" {
			t.Errorf("%q: status %d, %v, %s", tt.args, status, err, stderr.String())
			continue
		}
		set, code := 0.0, ""
		if a.Spindle.Set != nil {
			set = *a.Spindle.Set
		}
		if len(a.Findings) > 0 {
			code = a.Findings[0].Code
		}
		if math.Abs(set-tt.set) > 1e-9 || code != tt.code || (a.Spindle.Wanted.Max <= 0) != (code == "by-hand") {
			t.Errorf("%q: %s", tt.args, stdout.String())
		}
	}
}

// What is done by hand has no speed of any sort in the answer, whatever the machine,
// and a speed above a limit is never called harmless.
func TestNoSpeedByHand(t *testing.T) {
	for _, args := range [][]string{
		{"-machine", "50 110 200 360 600 1000 2000", "-d", "3 mm", "-material", "cast iron", "tapping"},
		{"-machine", "50-3000", "-d", "4 mm", "-material", "brass", "tapping"},
		{"-machine", "50 110 200", "-d", "3 mm", "-material", "mild steel", "die cutting"},
		{"-d", "1/2 in", "-material", "mild steel", "die cutting"},
	} {
		code, out, errs := do(args...)
		answer, _, _ := strings.Cut(out, "SOURCES")
		if code != 0 || errs != "" || strings.Contains(answer, "rev/min") || strings.Contains(answer, "m/min") || strings.Contains(answer, "Perhaps") {
			t.Errorf("%q: exit %d, %s", args, code, out)
		}
	}
	// SP-08: nor is a small cutter of carbide told to be of HSS.
	for _, op := range []string{"milling", "slot milling", "face milling", "fly cutting"} {
		_, out, _ := do("-machine", "100-2000", "-d", "2 mm", "-material", "cast iron", "-tool", "carbide", op)
		if !strings.Contains(out, "below the range") || strings.Contains(out, "HSS gives the better finish") {
			t.Errorf("%s with carbide of 2 mm: %s", op, out)
		}
	}
	for _, args := range [][]string{
		{"-chuck", "1000 rev/min", "-n", "1500 rev/min", "-d", "6 mm", "-material", "brass", "turning"},
		{"-chuck", "1000 rev/min", "-n", "1500 rev/min", "-machine", "100 200", "-d", "6 mm", "-material", "brass", "turning"},
	} {
		if code, out, _ := do(args...); code != 1 || strings.Contains(out, "As it runs: at 1500") || strings.Contains(out, "At 1500 rev/min the edge meets 28.3 m/min (93 ft/min), below the range: it does no harm") {
			t.Errorf("%q: exit %d, %s", args, code, out)
		}
	}
}

package fitcalc

import (
	"math"
	"testing"

	"example.com/seatline/fitcalc/measure"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.9g, want %.9g ± %g", what, got, want, within)
	}
}

// nearLength compares to the nanometre.
func nearLength(t *testing.T, what string, got measure.Length, wantMM float64) {
	t.Helper()
	near(t, what, got.Millimetres(), wantMM, 1e-6)
}

// mm is for sizes of the tests that the parser would only repeat.
func mm(t testing.TB, x float64) measure.Length {
	t.Helper()
	l, err := measure.FromMillimetres(x)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// Depth h = (D − d)/(2 tan(A/2)). The formula and the factor for 82° (.5752 of the difference; a ⅛ in deep 82° countersink
// is .217 in wider at its mouth) are published by Carter Tools, "Countersinking math"
// (cartertools.com/KBCountersinking/Math.html). The other depths are that formula evaluated in double precision.
func TestCountersink(t *testing.T) {
	tests := []struct {
		mouth, bottom float64
		angle         int64
		depth         float64
	}{
		{10, 6, 90, 2}, {12, 9, 82, 1.7255527}, {11, 9.4, 60, 1.3856406}, {.507, .266, 82, .1386194},
		// depths per unit of difference
		{2, 1, 60, .8660254}, {2, 1, 82, .5751842}, {2, 1, 90, .5}, {2, 1, 100, .4195498}, {2, 1, 110, .3501038},
		{2, 1, 118, .3004303}, {2, 1, 120, .2886751},
	}
	for _, test := range tests {
		mouth, bottom, angle := mm(t, test.mouth), mm(t, test.bottom), measure.Degrees(test.angle)
		depth := CountersinkDepth(mouth, bottom, angle)
		near(t, "depth", depth.Millimetres(), test.depth, 1e-7)
		near(t, "mouth", CountersinkMouth(bottom, depth, angle).Millimetres(), test.mouth, 1e-8)
		near(t, "angle", CountersinkAngle(mouth, bottom, depth), float64(test.angle), 1e-6)
	}
	wider := CountersinkMouth(measure.Length{}, long(t, ".125 in"), measure.Degrees(82))
	near(t, "82° over an eighth", wider.Inches(), .217, .0005)
}

// Published calculators that get cones wrong, seen on the web; the numbers here must not come out.
func TestConeTraps(t *testing.T) {
	mouth, bottom := mm(t, 12), mm(t, 9)
	depth := CountersinkDepth(mouth, bottom, measure.Degrees(82)).Millimetres()
	inverted := 3 / 2.0 * math.Tan(41*math.Pi/180) // divides by tan(90° − A/2)
	if math.Abs(depth-inverted) < .1 {
		t.Errorf("depth %v is that of the inverted formula", depth)
	}
	// A cone from 10 to 5 over 20 has the included angle 2 atan(5/40) = 14.250033°; atan(5/20) = 14.036° is published.
	angle := CountersinkAngle(measure.Millimetres(10), measure.Millimetres(5), measure.Millimetres(20))
	near(t, "included angle", angle, 14.250033, 1e-6)
	// .218 to .146 over .758 in: half of it is 2.71913°, where 2.71303° (half of atan) is in use.
	half := CountersinkAngle(long(t, ".218 in"), long(t, ".146 in"), long(t, ".758 in")) / 2
	near(t, "half angle", half, 2.71913, 5e-6)
}

// V = π h (R² + R r + r²)/3 of any table of solids; the values are that evaluated in double precision.
func TestFrustumVolume(t *testing.T) {
	near(t, "radii 5 and 3, height 8", FrustumVolume(mm(t, 10), mm(t, 6), mm(t, 8)), 410.5014400690663, 1e-9)
	near(t, "13.5 to 9.4, height 20", FrustumVolume(mm(t, 13.5), mm(t, 9.4), mm(t, 20)), 2081.3574929, 1e-6)
	near(t, "a cylinder", FrustumVolume(mm(t, 2), mm(t, 2), mm(t, 3)), 3*math.Pi, 1e-12)
	near(t, "a cone", FrustumVolume(mm(t, 2), mm(t, 0), mm(t, 3)), math.Pi, 1e-12)
}

func TestGeometryOutOfRange(t *testing.T) {
	if got := CountersinkDepth(measure.MaxLength, measure.Length{}, measure.Nanodegrees(1)); !got.IsZero() {
		t.Errorf("a depth beyond all lengths came out as %v", got)
	}
}

// Morse tapers: the taper per foot, the small end and the depth of the plug gauge give the large end
// (engineersedge.com, "Morse taper shanks dimensions"; half angles from laymar-crafts.co.uk, info 5). The tapers per inch
// published beside them are cut off after five places, so that they are derived from those per foot here.
func TestMorseTapersAsTips(t *testing.T) {
	tests := []struct {
		name, perFoot, small, large, depth string
		halfAngle                          float64 // degrees, 0 where none is published
	}{
		{"0", ".62460 in/ft", ".252 in", ".3561 in", "2 in", 0},
		{"1", ".59858 in/ft", ".369 in", ".475 in", "2.125 in", 1.4287},
		{"2", ".59941 in/ft", ".572 in", ".700 in", "2.5625 in", 1.4307},
		{"3", ".60235 in/ft", ".778 in", ".938 in", "3.1875 in", 1.4377},
		{"4", ".62326 in/ft", "1.020 in", "1.231 in", "4.0625 in", 1.4876},
		{"5", ".63151 in/ft", "1.475 in", "1.748 in", "5.1875 in", 1.5073},
		{"6", ".62565 in/ft", "2.116 in", "2.494 in", "7.25 in", 1.4933},
		{"7", ".62400 in/ft", "2.750 in", "3.270 in", "10 in", 0},
	}
	for _, test := range tests {
		taper, err := measure.ParseTaper(test.perFoot)
		if err != nil {
			t.Fatal(err)
		}
		tip := TaperTip(dim(t, test.small), taper).UpTo(long(t, test.large))
		got := tip.Diameter(long(t, test.depth)).Nominal()
		near(t, "large end of "+test.name, got.Inches(), long(t, test.large).Inches(), .00005)
		if test.halfAngle > 0 {
			near(t, "half angle of "+test.name, taper.HalfAngle()*180/math.Pi, test.halfAngle, .00005)
		}
	}
}

// The seat, worked out by hand with a 60° countersink (2 tan 30° = 1.154701) unless said otherwise.
func TestSeatGeometry(t *testing.T) {
	type want struct {
		standOff, least, most, deeper, mouth, wall, recess float64 // mm
	}
	tests := []struct {
		name   string
		change func(*parts)
		want   want
	}{
		{"plain on a flat top", func(*parts) {}, want{}},
		{"plain over a counterbore", func(p *parts) { p.counterbored("11 mm", "3 mm") }, want{recess: 3}},
		// the lower edge meets the cone at (11.5 − 10.5)/1.154701 = .866025 below the top
		{"collar down a cone", func(p *parts) { p.countersunk("11.5 ±0 mm"); p.collar("10.5 ±0 mm", "1.5 ±0.1 mm") },
			want{standOff: .633975, least: .533975, most: .733975, deeper: .633975, mouth: 12.232051, wall: .220974}},
		{"collar in a cone that is deep enough", func(p *parts) { p.countersunk("11.5 ±0 mm"); p.collar("10.5 ±0 mm", ".8 ±0 mm") }, want{}},
		// a depth of .5 stops the collar before the cone does
		{"collar on the bottom", func(p *parts) {
			p.countersunk("11.5 ±0 mm")
			p.head.Countersink.Depth = p.dim(".5 ±0.05 mm")
			p.collar("10.5 ±0 mm", ".8 ±0 mm")
		}, want{standOff: .3, least: .25, most: .35, deeper: .3, mouth: 11.846410, wall: .413795}}, // 11.5 + .3 × 1.154701
		{"collar wider than the mouth stands on the top", func(p *parts) { p.countersunk("10.5 ±0 mm"); p.collar("10.7 ±0 mm", ".5 ±0 mm") },
			want{standOff: .5, least: .5, most: .5, deeper: .5, mouth: 11.277350, wall: .698325}},
		{"collar narrower than the bore goes in", func(p *parts) {
			p.head.Bore = p.dim("10.4 ±0 mm")
			p.countersunk("11.5 ±0 mm")
			p.collar("10.3 ±0 mm", "3 ±0 mm")
		}, want{}},
		{"collar on a flat top", func(p *parts) { p.collar("10 ±0 mm", "1 ±0 mm") },
			want{standOff: 1, least: 1, most: 1, deeper: 1, mouth: 11.154701, wall: .759650}},
		// 90°: (12 − 10.5)/2 = .75
		{"angle as stated", func(p *parts) {
			p.countersunk("12 ±0 mm")
			p.head.Countersink.Angle = measure.Degrees(90)
			p.collar("10.5 ±0 mm", "1 ±0 mm")
		}, want{standOff: .25, least: .25, most: .25, deeper: .25, mouth: 12.5, wall: .087}},
		// mouth 11.4996, bore 9.4996 and depth 1 make the cone wider by 2 per mm: the collar goes in by (11.4996 − 10.4996)/2
		{"angle from mouth, depth and bore", func(p *parts) {
			p.head.Countersink = Countersink{Mouth: p.dim("11.4996 ±0 mm"), Depth: p.dim("1 ±0 mm")}
			p.collar("10.4996 ±0 mm", "1 ±0 mm")
		}, want{standOff: .5, least: .5, most: .5, deeper: .5, mouth: 12.4996, wall: .087200}},
		// bore 9.4996 + 2 × 1 tan 45° = 11.4996 at the mouth
		{"mouth from depth, angle and bore", func(p *parts) {
			p.head.Countersink = Countersink{Angle: measure.Degrees(90), Depth: p.dim("1 ±0 mm")}
			p.collar("10.4996 ±0 mm", "1 ±0 mm")
		}, want{standOff: .5, least: .5, most: .5, deeper: .5, mouth: 12.4996, wall: .087200}},
		{"collar in a counterbore", func(p *parts) { p.counterbored("11 ±0 mm", "1.2 ±0.1 mm"); p.collar("10.5 ±0 mm", "1 ±0 mm") }, want{recess: .2}},
		{"collar longer than the counterbore is deep", func(p *parts) { p.counterbored("11 ±0 mm", ".8 ±0.1 mm"); p.collar("10.5 ±0 mm", "1 ±0 mm") },
			want{standOff: .2, least: .1, most: .3, deeper: .2, mouth: 11.654701, wall: .509650}},
		{"collar wider than the counterbore", func(p *parts) { p.counterbored("10 ±0 mm", "3 ±0 mm"); p.collar("10.5 ±0 mm", ".5 ±0 mm") },
			want{standOff: .5, least: .5, most: .5, deeper: .5, mouth: 11.077350, wall: .798325}},
		{"step in a counterbore", func(p *parts) { p.counterbored("11 ±0 mm", "6 ±0.2 mm"); p.step("10.9 ±0 mm", "5.5 ±0.1 mm") }, want{recess: .5}},
		{"step too long", func(p *parts) { p.counterbored("11 ±0 mm", "5 ±0.2 mm"); p.step("10.9 ±0 mm", "5.5 ±0.1 mm") },
			want{standOff: .5, least: .2, most: .8}},
		{"step too wide stays outside", func(p *parts) { p.counterbored("11 ±0 mm", "6 ±0 mm"); p.step("11.1 ±0 mm", "5.5 ±0 mm") },
			want{standOff: 5.5, least: 5.5, most: 5.5}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := soundParts(t)
			p.head.HoselOD = p.dim("12.7 ±0.026 mm") // 12.674 mm at its lower limit
			p.ferrule.BaseOD = p.dim("12.72 ±0.02 mm")
			p.head.Bore = p.dim("9.4996 ±0.02 mm") // .374 in
			test.change(p)
			s := p.evaluate().Seat
			if !s.Known {
				t.Fatal("the seat is not known")
			}
			w := test.want
			nearLength(t, "stand-off", s.StandOff.Nominal, w.standOff)
			nearLength(t, "least stand-off", s.StandOff.Least, w.least)
			nearLength(t, "most stand-off", s.StandOff.Most, w.most)
			nearLength(t, "deeper", s.CutDeeper, w.deeper)
			nearLength(t, "mouth", s.CutMouth, w.mouth)
			nearLength(t, "wall", s.WallLeft, w.wall)
			nearLength(t, "recess", s.Recess, w.recess)
		})
	}
}

// TestMouthAndDepthOfNoTool: where mouth, depth and bore make a cone that no tool cuts, it does not run down to the bore.
func TestMouthAndDepthOfNoTool(t *testing.T) {
	p := soundParts(t)
	p.head.Countersink = Countersink{Mouth: p.dim(".374001 in"), Depth: p.dim("1 in")}
	p.collar(".3739 in", ".02 in")
	if fit := p.evaluate(); !fit.Assumptions.Has(AssumedCountersinkAngle) {
		t.Error("an angle of thousandths of a degree was taken for the countersink's")
	}
}

func TestBoreGeometry(t *testing.T) {
	type want struct {
		tight, least, most float64 // thou
		form               string  // the code, if any
	}
	tests := []struct {
		name   string
		change func(*parts)
		want   want
	}{
		{"parallel in parallel", func(*parts) {}, want{4, 2.5, 5.5, ""}},
		// both grow alike, so that bore and tip end decide
		{"taper in taper", func(p *parts) { p.taper() }, want{3, 1.5, 4.5, ""}},
		{"taper in a bore of unknown form", func(p *parts) { p.taper(); p.head.BoreForm = BoreUnknown }, want{3, 1.5, 4.5, ""}},
		// 1 in off the end leaves it .0075 in larger
		{"trimmed taper in taper", func(p *parts) { p.taper(); p.tip = p.tip.Trim(measure.Inches(1)) }, want{-4.5, -6, -3, "bore.tight"}},
		// the tip reaches .364375 in at the top of a parallel bore
		{"taper in parallel", func(p *parts) {
			p.taper()
			p.head.Bore, p.head.BoreForm = p.dim(".3664 ±.001 in"), BoreParallel
		}, want{2.025, .525, 3.525, "bore.form"}},
		// the bore is .374 in at its bottom and wider above
		{"parallel in taper", func(p *parts) { p.head.BoreForm = BoreTapered }, want{4, 2.5, 5.5, "bore.form"}},
		// tip and bore are parallel from 2 in on
		{"taper in taper, beyond the cone", func(p *parts) { p.taper(); p.head.BoreDepth = p.dim("3 in") }, want{3, 1.5, 4.5, ""}},
		// the bore goes on to 2 in, though the cone of the tip ends at 1 in: there and below, 4.5 too little, and 3 above
		{"trimmed taper in taper, beyond the cone", func(p *parts) {
			p.taper()
			p.head.BoreDepth, p.tip = p.dim("3 in"), p.tip.Trim(measure.Inches(1))
		}, want{-4.5, -6, -3, "bore.tight"}},
		// .370 in is as large as it gets
		{"taper in parallel, beyond the cone", func(p *parts) {
			p.taper()
			p.head.Bore, p.head.BoreForm, p.head.BoreDepth = p.dim(".372 ±.001 in"), BoreParallel, p.dim("3 in")
		}, want{2, .5, 3.5, "bore.form"}},
		// a tip that grows by .010 in per inch gains .003125 in on the bore over 1.25 in
		{"steeper taper in taper", func(p *parts) {
			p.taper()
			p.tip = TaperTip(p.dim(".355 ±.0005 in"), measure.TaperPPB(10_000_000))
		}, want{-.125, -1.625, 1.375, "bore.tight"}},
		{"bulge in parallel", func(p *parts) {
			p.head.Bore, p.ferrule.Bore = p.dim(".382 ±.001 in"), p.dim(".358 in")
			p.profile(".0005 in", "0 mm", ".380 in", ".5 in", ".381 in", "1 in", ".376 in")
		}, want{1, -.5, 2.5, ""}},
		{"bulge above the bore", func(p *parts) {
			p.profile(".0005 in", "0 mm", ".370 in", "1.3 in", ".370 in", "1.4 in", ".380 in")
			p.ferrule.Bore = p.dim(".378 in")
		}, want{4, 2.5, 5.5, ""}},
		{"bulge in parallel, narrow below", func(p *parts) {
			p.head.Bore, p.ferrule.Bore = p.dim(".382 ±.001 in"), p.dim(".358 in")
			p.profile(".0005 in", "0 mm", ".373 in", ".5 in", ".381 in", "1 in", ".376 in")
		}, want{1, -.5, 2.5, "bore.form"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := soundParts(t)
			test.change(p)
			fit := p.evaluate()
			c := fit.Bore.Clearance
			near(t, "clearance", c.Nominal.Inches()*1000, test.want.tight, 1e-6)
			near(t, "least", c.Least.Inches()*1000, test.want.least, 1e-6)
			near(t, "most", c.Most.Inches()*1000, test.want.most, 1e-6)
			var form string
			for r := range fit.Reasons() {
				if r.Code == BoreTight || r.Code == BoreLoose || r.Code == BoreFormed {
					form = r.Code.String()
				}
			}
			if form != test.want.form {
				t.Errorf("%q, want %q", form, test.want.form)
			}
		})
	}
}

func TestInsertionBelowTheRecess(t *testing.T) {
	tests := []struct {
		name   string
		change func(*parts)
		want   float64 // in
	}{
		{"flat", func(*parts) {}, 1.25},
		{"counterbore", func(p *parts) { p.counterbored(".44 in", ".2 in") }, 1.05},
		{"countersink of stated depth", func(p *parts) { p.head.Countersink.Depth = p.dim(".05 in") }, 1.2},
		// (.424 − .374)/(2 tan 30°) = .0433013 in
		{"countersink by its mouth", func(p *parts) { p.countersunk(".424 in") }, 1.2066987},
		{"the deeper of two", func(p *parts) { p.countersunk(".424 in"); p.head.Counterbore.Depth = p.dim(".02 in") }, 1.2066987},
		{"sleeve", func(p *parts) {
			p.head.Adapter = Adapter{TopOD: p.head.HoselOD, Bore: p.head.Bore, BoreDepth: p.dim(".9 in")}
		}, .9},
	}
	for _, test := range tests {
		p := soundParts(t)
		test.change(p)
		b := p.evaluate().Bore
		if !b.KnownInsertion {
			t.Errorf("%s: not known", test.name)
		}
		near(t, test.name, b.Insertion.Inches(), test.want, 5e-8)
	}
}

// TestAdapter: the sleeve's sizes replace the hosel's.
func TestAdapter(t *testing.T) {
	p := soundParts(t)
	p.head.HoselOD, p.head.Bore = p.dim(".560 ±.001 in"), p.dim(".450 ±.001 in")
	p.head.Adapter = Adapter{TopOD: p.dim(".500 ±.001 in"), Bore: p.dim(".374 ±.001 in"), BoreDepth: p.dim("1.1 in")}
	fit := p.evaluate()
	if fit.Verdict != Flush || fit.Flush.HoselOD != p.head.Adapter.TopOD || fit.Grip.Insertion != long(t, "1.1 in") {
		t.Errorf("%v on %v at %v", fit.Verdict, fit.Flush.HoselOD, fit.Grip.Insertion)
	}
	near(t, "clearance", fit.Bore.Clearance.Nominal.Inches(), .004, 1e-12)
}

// TestWallAndRing by hand, per side.
func TestWallAndRing(t *testing.T) {
	p := soundParts(t)
	near(t, "wall on a parallel tip", p.evaluate().Work.WallLeft.Inches(), (.499-.3705)/2, 1e-9)
	// at 1.5 in a .355 in taper tip is .36625 in, less than the bore of .368 in: the wall ends at the bore
	p.taper()
	p.head.BoreDepth, p.ferrule.Bore = p.dim("1.5 in"), p.dim(".368 ±.0005 in")
	near(t, "wall where the shaft is thinner than the bore", p.evaluate().Work.WallLeft.Inches(), (.499-.3685)/2, 1e-9)
	// a base under the hosel's lower limit is as thin as it is
	p = soundParts(t)
	p.ferrule.BaseOD = p.dim(".4988 ±.001 in")
	near(t, "wall of a base that is not turned", p.evaluate().Work.WallLeft.Inches(), (.4978-.3705)/2, 1e-9)

	// B = .540, T = .380, L = 1: narrower by .160 in per inch. Turned down by .020 in, .004 in are left to turn at z = .1
	ring := func(height string) bool {
		p := soundParts(t)
		p.head.HoselOD, p.ferrule.BaseOD = p.dim(".520 ±.001 in"), p.dim(".540 ±.001 in")
		p.ferrule.TopOD, p.ferrule.Length = p.dim(".380 in"), p.dim("1 in")
		p.ring(".002 in")
		p.ferrule.RingHeight = p.dim(height)
		fit := p.evaluate()
		r, found := reasonOf(&fit, RingCut)
		if found = found && r.Level == Blocks; found {
			near(t, "off at "+height, r.Size.Inches(), .010-.080*p.ferrule.RingHeight.Nominal().Inches(), 1e-9)
		}
		return found
	}
	if !ring(".05 in") || !ring(".0999999 in") || ring(".1 in") || ring(".5 in") {
		t.Error("the ring is cut up to .1 in above the base, and not beyond")
	}
}

// TestMinutes by hand: B = 14, H = 12, T = 10 mm and L = 20 mm turn into a cylinder up to 20 × 2/4 = 10 mm. The cone below is
// π 10 (14² + 14 × 12 + 12²)/12 = 1329.941, the cylinder π/4 × 12² × 10 = 1130.973, what comes off 198.968 mm³.
func TestMinutes(t *testing.T) {
	p := soundParts(t)
	p.head.HoselOD, p.ferrule.BaseOD = p.dim("12 ±0 mm"), p.dim("14 ±0 mm")
	p.ferrule.TopOD, p.ferrule.Length = p.dim("10 mm"), p.dim("20 mm")
	p.shop.TurnLimit = measure.Millimetres(3)
	fit := p.evaluate()
	if fit.Verdict != Turn {
		t.Fatal(fit.Verdict)
	}
	near(t, "turned", fit.Work.Minutes, 1+4+.198968*20, 1e-5)
	p.head.Bore = p.dim(".3705 in") // to be reamed
	near(t, "turned and prepared", p.evaluate().Work.Minutes, 1+4+.198968*20+12, 1e-5)
	p.ferrule.Bore = measure.Dim{} // a question does not make the work less
	near(t, "prepared, and a bore to ask for", p.evaluate().Work.Minutes, 1+4+.198968*20+12, 1e-5)
	// the top is wider than the hosel: the whole length is turned, a cone of 14 to 13 over 20 mm to a cylinder of 12
	p = soundParts(t)
	p.head.HoselOD, p.ferrule.BaseOD = p.dim("12 ±0 mm"), p.dim("14 ±0 mm")
	p.ferrule.TopOD, p.ferrule.Length = p.dim("13 mm"), p.dim("20 mm")
	p.shop.TurnLimit = measure.Millimetres(3)
	near(t, "turned all over", p.evaluate().Work.Minutes, 1+4+math.Pi*20*((196+182+169)/12.0-144/4.0)/1000*20, 1e-9)
	// a top wider than the base is as wide as that
	p.ferrule.TopOD = p.dim("15 mm")
	near(t, "turned from a barrel", p.evaluate().Work.Minutes, 1+4+math.Pi*20*(196-144)/4/1000*20, 1e-9)
	// half of them need turning: S is normal about the step, and those above it are off by σ √(2/π) more on the mean
	p = soundParts(t)
	p.shop.UndersizeRisk, p.shop.MinutesPerCM3 = .99, 0
	p.ferrule.BaseOD = p.dim(".502 ±.001 in")
	near(t, "half turned", p.evaluate().Work.Minutes, 1+.5*4, 1e-9)
	near(t, "mean off", p.evaluate().Flush.MeanTurnDownMM/25.4, .5*.002+math.Sqrt2*.001/3/math.Sqrt(2*math.Pi), 1e-12)
}

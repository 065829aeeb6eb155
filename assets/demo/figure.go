package main

// Edges of the figure, in the order in which a drawing would set them down.
const (
	faceEdge = "540,200 500,250 482,306 486,336 476,382 488,436 514,480 552,503 606,488 660,446 700,372 706,280 680,205 610,178"
	neckEdge = "584,470! 588,530 572,600! 728,600! 710,548 700,470 706,380! 640,380!"
	coatEdge = "560,592! 500,628 428,668 384,734 356,820 340,920! 930,920! 918,810 888,716 812,650 734,606!"
	loopEdge = "506,596 524,556 582,566 650,570 716,538 760,560 768,612 712,658 620,676 540,650"
	tailEdge = "730,556! 800,536 872,566 950,556 1030,526 1110,548! 1102,590 1112,640! 1030,606 960,640 880,652 806,616 742,640!"
	backEdge = "520,240 508,182 556,122 640,98 724,122 778,184 816,236 880,262 968,240! 912,296 936,312 1056,300! 960,366 912,386 " +
		"952,410 1030,410! 930,466 836,478 776,520 700,560! 640,480! 600,260"
	frontEdge = "500,300! 492,214 530,138 622,96 716,120 776,186 800,250 790,330! 800,400 850,444 920,452! 820,470 748,446 708,390 " +
		"698,330 672,276 634,232 600,190! 566,238 530,264"
	hairTurn = "646,70 676,130 700,196 708,262 716,330 736,390 780,438 846,470"
	faceTurn = "620,150 648,232 662,300 666,350 650,394 622,428 602,462 566,530"
	coatTurn = "640,590 632,690 644,780 632,850 636,940"
)

// neck stands in the shadow that the head casts, but for a strip at its front.
func (s *scene) neck() {
	neck := closed(neckEdge)
	s.fill(neck, s.skin.shadow)
	s.inside(neck, func() {
		s.fill(closed("560,440! 606,512 604,560 616,640! 540,640! 540,440!"), s.skin.light)
		s.line("560,440 606,512 604,560 616,640", 12, s.skin.accent)
	})
	s.line("586,484 588,530 574,590", 5, s.skin.line)
}

// face lays light and shadow in two masses with the accent on the edge between them.
func (s *scene) face() {
	face := closed(faceEdge)
	s.fill(face, s.skin.shadow)
	s.inside(face, func() {
		s.fill(closed(faceTurn+"! 420,540! 420,150!"), s.skin.light)
		s.glow(512, 412, 42, s.skin.accent, 0.14)
		s.glow(604, 408, 50, s.skin.accent, 0.2)
		s.fill(ribbon(open(faceTurn), 12, 0.7), s.skin.accent)
	})
	s.line("500,250 482,306 486,336 476,382 488,436 514,480 552,503 606,488 668,440", 6, s.skin.line)
}

// features are drawn, not modelled: two shut eyes, nose and mouth.
func (s *scene) features() {
	t := s.skin
	s.fill(closed("528,334! 541,354 534,382 520,399! 510,397 513,374 521,350"), t.shadow)
	s.line("518,326 511,360 499,388 505,401 522,402", 5, t.line)
	s.fill(closed("505,440! 518,433 529,437 544,432 564,441! 546,446 528,447"), t.accent)
	s.fill(closed("509,443! 530,448 558,444! 546,459 528,463 515,456"), t.shadow)
	s.line("501,440 520,445 534,444 568,439", 4, t.line)
	s.line("520,476 534,480 549,475", 6, t.shadow)
	s.line("570,350 588,367 612,369 638,352", 8, t.line)
	s.line("485,354 492,365 501,366 510,358", 6, t.line)
	for _, lash := range []string{
		"590,368 586,376 582,382", "605,370 605,378 604,385", "620,366 624,374 628,380", "632,358 639,364 645,367",
		"492,366 487,371 482,374", "501,367 499,373 497,378",
	} {
		s.line(lash, 4, t.line)
	}
	s.line("562,320 588,304 618,305 646,320", 10, s.hair.shadow)
	s.line("484,318 494,307 506,307 518,316", 8, s.hair.shadow)
	for _, f := range []point{{560, 392}, {574, 401}, {586, 391}, {570, 416}, {500, 416}, {592, 414}, {546, 406}} {
		s.glaze(disc(f.x, f.y, 2.6, 2.2), t.line, 0.55)
	}
}

// backHair is the mass behind the head, with the locks that the wind takes.
func (s *scene) backHair() {
	mass := closed(backEdge)
	s.fill(mass, s.hair.shadow)
	s.inside(mass, func() {
		s.line("776,170 820,236 880,258 968,238", 24, s.hair.light)
		s.line("790,206 826,262 884,282 950,262", 8, s.hair.accent)
		s.line("800,280 880,326 960,326 1056,300", 15, s.hair.light)
		s.line("800,330 870,376 960,356", 8, s.hair.accent)
		s.line("780,410 860,440 940,428 1030,410", 12, s.hair.light)
	})
	s.line("776,180 816,236 880,262 968,240", 5, s.hair.line)
	s.line("968,240 912,296 936,312 1056,300", 4, s.hair.line)
	s.line("1056,300 960,366 912,386 952,410 1030,410", 4, s.hair.line)
	s.line("1030,410 930,466 836,478 776,520 700,560", 6, s.hair.line)
}

// frontHair frames the face: light where the crown turns to the sun, shadow behind.
func (s *scene) frontHair() {
	mass := closed(frontEdge)
	s.fill(mass, s.hair.shadow)
	s.inside(mass, func() {
		s.fill(closed(hairTurn+"! 640,480! 460,320! 460,60!"), s.hair.light)
		s.fill(ribbon(open(hairTurn), 14, 1), s.hair.accent)
		s.fill(closed("600,190! 566,230 532,256 498,302! 512,262 540,232"), s.hair.shadow)
		s.fill(closed("524,170! 552,132 598,112 640,108! 606,130 566,150 538,186"), s.sheen)
		s.fill(closed("640,124! 622,130 602,142 588,158! 604,138 620,128"), s.sheen)
		for _, e := range []string{
			"600,190 578,170 548,180 512,244", "600,190 612,158 648,146 676,164", "600,190 630,186 664,206 690,256",
			"600,190 584,158 596,134 650,118", "520,204 516,230 506,262",
		} {
			s.line(e, 4, s.hair.line)
		}
		s.line("730,150 760,210 770,290 790,350", 5, s.hair.line)
		s.line("722,250 744,330 780,400 850,444", 5, s.hair.line)
	})
	s.line("500,300 492,214 530,138 622,96 716,120 776,186", 7, s.hair.line)
	s.line("500,300 530,264 566,238 600,190", 5, s.hair.line)
	s.line("600,190 634,232 672,276 696,330 708,390 748,446 820,470", 6, s.hair.line)
	s.line("540,214 520,250 514,290 524,316", 5, s.hair.shadow)
}

// paintCoat turns from green-blue in the light to blue in the shadow.
func (s *scene) paintCoat() {
	mass := closed(coatEdge)
	s.fill(mass, s.coat.shadow)
	s.inside(mass, func() {
		s.fill(closed(coatTurn+"! 320,940! 320,590!"), s.coat.light)
		s.fill(ribbon(open(coatTurn), 13, 0.3), s.coat.accent)
		s.fill(closed("446,752! 466,800 460,860 468,920! 516,920! 500,850 480,796"), s.coat.shadow)
		s.fill(ribbon(open("444,748 466,800 460,860 468,940"), 8, 0.8), s.coat.accent)
		s.fill(closed("520,640! 548,690 600,706 640,690! 640,660! 560,650!"), s.coat.shadow)
		s.line("888,706 918,800 932,930", 20, s.bounce)
	})
	s.line("500,628 428,668 384,734 356,820 340,920", 7, s.coat.line)
	s.line("812,650 888,716 918,810 930,920", 7, s.coat.line)
	s.line("438,740 460,790 454,860 462,930", 5, s.coat.line)
	s.line("838,760 822,820 830,930", 5, s.coat.line)
	s.line("596,700 582,770 584,840 578,940", 5, s.coat.line)
	for _, y := range []float64{742, 806, 870} {
		s.fill(disc(606, y, 9, 9.5), s.coat.line)
		s.fill(disc(604.5, y-1.5, 6.5, 7), s.scarf.light)
	}
	s.line("700,846 742,838 790,822", 6, s.coat.line)
	s.line("566,690 590,700 640,712 700,706", 5, s.coat.line)
}

// paintScarf is the family that goes wrong: its shadow is its light with black in it,
// and its line is plain black.
func (s *scene) paintScarf() {
	tail, loop := closed(tailEdge), closed(loopEdge)
	s.fill(tail, s.scarf.light)
	s.inside(tail, func() {
		s.fill(closed("730,600! 800,582 872,614 950,602 1030,570 1120,590! 1120,660! 730,660!"), s.scarf.shadow)
		s.fill(closed("730,540! 780,540 770,600 740,650! 720,650!"), s.scarf.shadow)
	})
	s.contour(tail, 4, s.scarf.line)
	s.fill(loop, s.scarf.light)
	s.inside(loop, func() {
		s.fill(closed("690,520! 668,590 640,640 610,690! 800,690! 800,520!"), s.scarf.shadow)
		s.fill(closed("500,640! 560,636 640,650 640,690! 500,690!"), s.scarf.shadow)
	})
	s.contour(loop, 4, s.scarf.line)
	s.line("530,592 590,606 660,606 724,580", 4, s.scarf.line)
	s.line("540,622 600,636 660,634 706,620", 3, s.scarf.line)
}

// leaves drift off with the wind, each with its two sides.
func (s *scene) leaves() {
	for _, l := range []struct{ top, foot, vein string }{
		{"930,196! 954,178 988,182!", "930,196! 962,204 988,182!", "930,196 958,190 988,182"},
		{"1060,240! 1070,218 1096,208!", "1060,240! 1086,238 1096,208!", "1060,240 1078,226 1096,208"},
		{"1092,420! 1120,412 1144,428!", "1092,420! 1112,438 1144,428!", "1092,420 1118,424 1144,428"},
		{"140,496! 164,480 190,486!", "140,496! 168,502 190,486!", "140,496 166,490 190,486"},
		{"836,160! 848,142 872,138!", "836,160! 862,158 872,138!", "836,160 854,150 872,138"},
	} {
		s.fill(closed(l.top), s.leaf.light)
		s.fill(closed(l.foot), s.leaf.shadow)
		s.line(l.vein, 3, s.leaf.line)
	}
}

package families

// fitted are the weights that Find uses. Link was written by make fit on 2026-11-29, fitted on 320
// pictures: the drawings of testdata/drawings in three sizes, and the painted scenes of
// analysis/scenetest. Sure was fitted anew on 2026-11-30 on 280 of them, as make fit does, but with
// the drawings in the sizes 1 and 0.81 alone, and the scenes joined by the Link above.
var fitted = Model{
	Link: [linkFigures]float64{
		-0.5808,
		-0.6810,
		-0.5344,
		-0.6657,
		-0.7681,
		-0.5263,
		-1.4762,
		4.4722,
		-1.9929,
		1.6977,
		-1.4161,
		0.4381,
		0.1379,
		0.7023,
		2.5174,
		1.6918,
		-2.8809,
		-1.5571,
		-1.8811,
	},
	Sure: [sureFigures]float64{
		-5.3234,
		0.1965,
		0.2826,
		0.3253,
		-0.4057,
		-0.2978,
		0.5616,
		1.1462,
		-0.1156,
		-1.5928,
		-0.2002,
		-2.7783,
		-1.1073,
		0.6780,
		1.5358,
		0.0933,
		-0.2555,
		8.2756,
	},
}

// Package analysis measures a picture's lightness and colour in a painter's terms:
// lightness, value, tone, layer grey, chroma, hue, spot, group, family.
//
// It is pure: pixels go in, numbers come out; no screen, no drawing, no state but the
// buffers of a Reader. Package analysis itself has pixels, what is left out of them, Read, the
// groups, spots and pairs of spots, limits, targets and changes; the folders below have what is
// built on these, and colour and internal what all of it stands on.
//
// # Sources
//
//   - SRGB: IEC 61966-2-1:1999, Default RGB colour space, sRGB.
//   - P3: Display P3, primaries of SMPTE RP 431-2:2011, as CSS4 defines it. ADOBE: Adobe RGB (1998) Color
//     Image Encoding, version 2005-05, 4.3. BT2020: ITU-R BT.2020-2, 2015. BT1886: ITU-R BT.1886, 2011.
//   - CIE15: CIE 15:2004, Colorimetry, 3rd ed.: CIE 1976 L*, a*, b*.
//   - CSS4: W3C CSS Color Module Level 4, sample code for colour conversions: the matrices,
//     the D65 white, Oklab.
//   - D1535: ASTM D1535-08e1, Specifying Color by the Munsell System: the value scale.
//   - W3CBLEND: W3C Compositing and Blending Level 1, non-separable blend modes; simple
//     alpha compositing.
//   - SHARMA: Sharma, Wu, Dalal, The CIEDE2000 color-difference formula, Color Res. Appl.
//     30(1), 2005.
//   - HGN23: High, Green, Nussbaum, Color Res. Appl. 48(2), 2023: seen lightness.
//   - OTSU: Otsu, A threshold selection method from gray-level histograms, IEEE Trans. SMC
//     9(1), 1979; for more classes Liao, Chen, Chung, J. Inf. Sci. Eng. 17, 2001.
//   - EMD: Vallender, Theory Probab. Appl. 18, 1974 (from memory); Rubner, Tomasi, Guibas,
//     Int. J. Comput. Vis. 40(2), 2000: the earth mover's distance of histograms.
//   - MACHADO: Machado, Oliveira, Fernandes, A physiologically-based model for simulation of
//     color vision deficiency, IEEE Trans. Vis. Comput. Graph. 15(6), 2009.
//   - KMEANS: Lloyd, Least squares quantization in PCM, IEEE Trans. Inf. Theory 28(2), 1982;
//     where to begin, after Gonzalez, Theor. Comput. Sci. 38, 1985 (both from memory).
//   - NOISE: Immerkaer, Fast noise variance estimation, Comput. Vis. Image Underst. 64(2),
//     1996. MORPH: Serra, Image analysis and mathematical morphology, 1982: closing, opening,
//     top hats. EVEN: Nagao, Matsuyama, Edge preserving smoothing, Comput. Graph. Image
//     Process. 9, 1979. GROW: Adams, Bischof, Seeded region growing, IEEE Trans. PAMI 16(6),
//     1994. MERGE: Koepfler, Lopez, Morel, A multiscale algorithm for image segmentation by
//     variational method, SIAM J. Numer. Anal. 31(1), 1994. DEPTH: Borgefors, Distance
//     transformations in digital images, Comput. Vis. Graph. Image Process. 34, 1986. JOIN:
//     Keuper, Levinkov, Bonneel, Lavoué, Brox, Andres, Efficient decomposition of image and mesh
//     graphs by lifted multicuts, ICCV 2015: greedy additive edge contraction. The steps of
//     finding families follow these (all from memory).
package analysis

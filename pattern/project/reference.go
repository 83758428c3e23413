// Code generated from the table of a design's values by go test -run Reference -refresh; DO NOT EDIT.

// All that a design file may hold:
//
//	fretband            5: the version of this format, or 2 where nothing is accepted
//	name                text, at most 80 bytes: what the piece is called
//	note           opt  text, at most 2000 bytes, for the reader; it may have several lines
//	band                the band as it is worn:
//	  kind              "cuff" (open), "bangle" or "ring" (both closed)
//	  inside            the inner oval; "by" says which other fields are given:
//	    by              "axes", "sides", "circumference", "wrist", "size", "edges" or "profile"
//	    width_mm   opt  by axes or sides: 8 to 150, along the wrist's width
//	    height_mm  opt  by axes or sides: 8 to 150, a quarter to four times the width; by sides the
//	                    inside is two half circles and two straight runs
//	    circumference_mm
//	               opt  by circumference: 25 to 475, inside, gap and metal together
//	    wrist_mm   opt  by wrist: 80 to 300, round the wrist
//	    ease_mm    opt  by wrist: -30 to 80, added to the wrist; 0 if left out
//	    ratio      opt  by circumference or wrist: width : height, 0.25 to 4, 1 is round
//	    scale      opt  by size: "iso", "us", "uk", "jp", "it" for rings, "bangle" for bangles
//	    size       opt  by size: text, as "54", "7 1/2", "N 1/2", "13", "2-4"
//	    profile    opt  by profile: list of 2 to 60 pieces from the front round the band, in the
//	                    sense of the flat's x; they run into each other without corners, turn
//	                    through 360 degrees in all (within 0.05) and come back to the front (within
//	                    0.05 mm; what is missing is shared out):
//	      length_mm opt a straight run: 0.01 to 150
//	      radius_mm opt an arc: 1 to 1000
//	      angle_deg opt an arc: 0.1 to 360, or -0.1 to -360 where it bends away from the wrist; the
//	                    radius must then be at least twice the thickness
//	    top_circumference_mm
//	               opt  by edges, for a flared band of constant width: 25 to 475, inside
//	    bottom_circumference_mm
//	               opt  by edges: 25 to 475, inside
//	  gap_mm       opt  cuff: 0 to less than half the inner circumference, measured inside
//	  gap_share    opt  cuff, instead of gap_mm: 0 to less than 0.5 of that circumference
//	  thickness         of the sheet, one of:
//	    mm         opt  0.2 to 6
//	    bs_gauge   opt  Brown & Sharpe gauge, whole, 3 to 32
//	    imperial_gauge
//	               opt  Imperial (British standard wire) gauge, whole, 4 to 35
//	  width_mm          1 to 150, at the middle
//	  end_width_mm      1 to 150, at the ends; equal to width_mm for a constant width
//	  swell_length_mm
//	               opt  1 to the blank's length: how far, about the middle, the width takes to go
//	                    from the ends' to the middle's; the whole if left out
//	  top_edge     opt  list of at most 24 points, left to right, that draw the top edge off its
//	                    plain place by a smooth curve that goes no further than they do:
//	    at              -1 (left end) to 1 (right end), 0 in the middle
//	    out_mm          -60 to 60: how far outside the plain edge
//	  bottom_edge  opt  the same for the bottom edge, also outwards
//	  end_corner_mm opt cuff: radius of the ends' corners, 0 to half the end's width
//	  end_shape    opt  cuff: "round" (one arc from edge to edge) or "point"
//	  end_length_mm opt point: up to a third of the blank's length
//	  end_radius_mm opt point: radius of its tip, 0.3 to a little under half the end's width
//	  flare_deg    opt  -45 to 45: half-angle of a conical band, positive if the top edge is the
//	                    wider; round inside only, the inside is that of the middle
//	  dome         opt  "outward" or "hollow": the section across the band is an arc; widths are
//	                    then measured over the arc, the inside in the middle
//	  dome_radius_mm
//	               opt  2 to 2000, of that arc on the surface drawn at its true size
//	  dome_rise_mm opt  instead of the radius: depth of the arc over width_mm
//	  dome_flat    opt  needed with dome; what is true on the blank: "arc-length" (lengths across),
//	                    "conformal" (angles) or "equal-area" (areas)
//	  making       opt  "flat" (cut flat, then bent; if left out) or "formed" (cut or cast as
//	                    formed, walls square to the surface)
//	  drawn        opt  formed: the face that the drawing shows, "inner", "middle" (at neutral_k of
//	                    the thickness; if left out) or "outer"
//	  joint        opt  bangle or ring: "soldered" or "seamless"
//	  joint_mm     opt  soldered: 0.2 to 40, the strip kept solid, both sides together
//	  neutral_k         0.3 to 0.6: depth of the surface that keeps its length in bending, as a
//	                    share of the thickness; 0.5 is usual
//	metal
//	  alloy             a key of the table of alloys, as "sterling-925", or "own"
//	  density_g_cm3 opt alloy "own": 0.5 to 25, g/cm^3
//	  price_per_g  opt  0 to 100000; 0 shows no cost
//	  currency     opt  text, at most 12 bytes, as "EUR"
//	rules               what holds for every opening:
//	  bridge_mm         0.1 to 20: no metal between openings is thinner
//	  rim_mm            0 to 60: solid along the edges; at least bridge_mm is kept
//	  rim_along    opt  list of at most 24 points: the rim along the band, with a smooth curve
//	                    through them; nowhere under bridge_mm. A cuff's ends have the rim's width
//	                    there. Round a closed band the curve runs on over the seam; both -1 and 1
//	                    are one place there and take their mean. Rows that follow the width follow
//	                    the rim
//	    at              -1 (left end) to 1 (right end), each more than the one before
//	    size            0.2 to 5, in proportion to rim_mm
//	  corner_mm         0 to 10: least radius of an opening's inner corners
//	  smallest_mm       0 to 20: diameter of the circle that every opening admits
//	  process      opt  how openings are cut: "saw", "laser", "etch" or "cast"
//	fields              the pattern: list of 0 to 40 fields. Where areas overlap the earlier field
//	                    has the right of way
//	  name         opt  text, at most 80 bytes
//	  motif             "triangles", "diamonds", "squares", "bricks", "hexagons", "chevrons",
//	                    "lattice", "circles", "ellipses", "scallops", "ogees", "waves", "leaves",
//	                    "petals", "teardrops", "trefoils", "quatrefoils", "lancets", "crosses",
//	                    "hexastars", "cells", "sails" or "own"
//	  path         opt  motif "own": SVG path data of one closed curve; only its shape counts. All
//	                    cells of own motifs together have at most 300000 edges (lines and arcs)
//	  left_half    opt  motif "own", on a cuff: "mirrored" mirrors the shape left of the middle,
//	                    unless the field is turned; files before version 4 always did
//	  numbers      opt  the motif's own numbers by name, as {"angle_deg": 55}; those left out take
//	                    the motif's default
//	  area         opt  where the field lies; the whole band if left out:
//	    shape      opt  "run" (a piece of the length), "strip" (a piece of the width), "circle",
//	                    "oval", "rectangle" or "path"
//	    from_mm    opt  run: along, strip: across; -500 to 500 from the middle of the blank
//	    to_mm      opt  the same, more than from_mm
//	    x_mm       opt  of the other shapes' middle, of a path's origin: -500 to 500
//	    y_mm       opt  the same across
//	    width_mm   opt  0.1 to 150: diameter of a circle, length of an oval or rectangle; a path is
//	                    stretched to it
//	    height_mm  opt  oval, rectangle, path: 0.1 to 150
//	    turn_deg   opt  -360 to 360, anticlockwise
//	    path       opt  SVG path data of one closed curve, in mm, y down as in SVG; those of all
//	                    areas have at most 5000 edges (lines and arcs) together
//	  rows              whole, 1 to 60
//	  repeats      opt  whole, 1 to 1000; rows times repeats of all fields at most 30000
//	  pitch_mm     opt  instead of repeats, 0.2 to 200: on a closed band, or with edge "fit", as
//	                    many stand along as come nearest to this pitch; else exactly this pitch,
//	                    from the middle of the area
//	  stagger           0 to 0.5 of the pitch, of every other row
//	  phase        opt  -1 to 1 of the pitch: the whole field is moved along by it
//	  turn_deg     opt  -360 to 360: the field is turned about the middle of its area; on a closed
//	                    band to the nearest turn at which the pattern closes
//	  mirror       opt  "along" (left and right mirror each other), "across" or "both"
//	  edge         opt  "clip" (cells at the edge are cut; if left out), "whole" (they are left
//	                    solid) or "fit" (as whole, the pitch stretched to fill)
//	  follow       opt  "clip" (cells are cut by the rim; if left out) or "width" (cells scale with
//	                    the band's width; on the whole band and in a run only)
//	  bridge_mm    opt  0.1 to 20, the field's own bridge; the rule's holds where it is wider, or if
//	                    this is left out
//	  wider_along_mm
//	               opt  0 to 20: by how much bridges that run along the band are wider than the
//	                    field's, slanting ones by a part of it
//	  wider_across_mm
//	               opt  0 to 20: by how much bridges that run across the band are wider than the
//	                    field's, slanting ones by a part of it
//	  grade_along  opt  list of at most 24 points: the size of cells along the area, with a smooth
//	                    curve through them; the whole fills the area as it would ungraded. Round a
//	                    closed band the curve runs on over the seam; sizes at both -1 and 1 are one
//	                    place there and take their mean. Mirrored, the half above 0 counts
//	    at              -1 (left end) to 1 (right end), each more than the one before
//	    size            0.2 to 5, in proportion to the others
//	  grade_across opt  the same across the area, -1 at the bottom
//	  grade_bridge opt  0 to 1: how far bridges grow and shrink with the cells
//	  bridge_along opt  list of at most 24 points: the bridges along the area, in proportion to the
//	                    field's bridge, with a curve as of grade_along; nowhere under bridge_mm of
//	                    the rules. It holds between openings of the field
//	    at              -1 (left end) to 1 (right end), each more than the one before
//	    size            0.2 to 5, in proportion to the field's bridge
//	reserves       opt  list, at most 200, of areas kept solid; those of rows counted singly at most
//	                    2000, their paths with at most 5000 edges (lines and arcs) together:
//	  shape             "circle", "oval", "rectangle" or "path"
//	  x_mm              -500 to 500, of its middle, along the blank from the front
//	  y_mm              -500 to 500, across the blank
//	  width_mm     opt  0.1 to 150: diameter of a circle, length of the others
//	  height_mm    opt  oval, rectangle, path: 0.1 to 150
//	  turn_deg     opt  -360 to 360
//	  path         opt  SVG path data of one closed curve, in mm, y down as in SVG
//	  count        opt  whole, 0 to 200: so many in a row along the band
//	  spacing_mm   opt  0 to 300, from middle to middle; along the arc of a flared band; 0: evenly
//	                    round a closed band, evenly along an open one
//	  margin_mm         0 to 20: how far openings stay away
//	  note         opt  text, at most 200 bytes, as "stone seat"
//	marks          opt  list, at most 100, of what is engraved, not cut; its lines are at most
//	                    100000 mm long together, all paths of the design at most 20000 lines, curves
//	                    and moves:
//	  kind              "line", "path" or "text"
//	  x_mm              -500 to 500, of its middle, of a path's origin
//	  y_mm              -500 to 500
//	  turn_deg     opt  -360 to 360
//	  length_mm    opt  line: 0.1 to 500
//	  path         opt  path: SVG path data, open or closed curves, in mm; those that openings keep
//	                    away from have at most 2000 edges together
//	  text         opt  text: one line of at most 80 bytes, drawn as outlines
//	  height_mm    opt  text: 0.3 to 40, of its capitals
//	  side         opt  outside if left out; inside is on the face that touches the skin, and reads
//	                    right from there
//	  keep_mm           -1 to 20: how far openings stay away; under 0 they may run through
//	  note         opt  text, at most 200 bytes
//	added          opt  list, at most 100, of what is soldered or set on; openings keep away from
//	                    it. Those of rows counted singly at most 3000:
//	  kind              "stone", "wire" (a border along an edge), "beads" (a row of them) or "part"
//	                    (any other)
//	  note         opt  text, at most 200 bytes
//	  cut          opt  "round", "oval", "square", "rectangle", "cushion", "long-cushion",
//	                    "emerald", "marquise", "pear", "heart", "cabochon" or "round-cabochon"
//	  gem          opt  "diamond", "corundum", "beryl", "quartz", "almandine", "rhodolite",
//	                    "pyrope", "peridot", "tourmaline", "spinel", "tanzanite", "chrysoberyl",
//	                    "topaz", "zirconia", "turquoise", "lapis", "jadeite", "nephrite", "opal",
//	                    "malachite", "moonstone", "coral", "pearl" or "own"
//	  sg           opt  gem "own": 0.5 to 25, its specific gravity
//	  section      opt  "round", "half-round", "square" or "oval"
//	  seat         opt  "circle", "oval" or "rectangle"
//	  row          opt  what several follow: a line along the band if left out, "circle", "oval",
//	                    "top", "bottom" or "both" (edges); wire follows an edge
//	  x_mm         opt  -500 to 500, of its middle, of a row's middle, along the blank from the
//	                    front; not of wire
//	  y_mm         opt  -500 to 500, across the blank
//	  inset_mm     opt  along an edge: 0 to 60, from the edge to the nearer side
//	  row_width_mm opt  circle, oval: 0.1 to 150, through the middles of what follows it
//	  row_height_mm opt oval: 0.1 to 150
//	  count        opt  whole, 0 to 1000, along each edge; 0 of beads: as many as fit, of others a
//	                    single one
//	  spacing_mm   opt  stones, parts: 0 to 300, from middle to middle on the outer face; 0: evenly
//	  gap_mm       opt  beads: 0 to 60, between two
//	  width_mm     opt  0.1 to 150: length of a stone or part (of a round one its diameter), width
//	                    of a wire on the metal, diameter of beads; beads without it are as large as
//	                    closes the row, or fills it
//	  height_mm    opt  0.1 to 150: width of a stone or part that is not round or square, height of
//	                    an oval wire
//	  depth_mm     opt  stone: 0.1 to 60, from top to bottom
//	  turn_deg     opt  -360 to 360
//	  setting      opt  stone: "bezel", or "prongs" with weight_g; none if left out
//	  wall_mm      opt  bezel: 0.1 to 5, its thickness
//	  rise_mm      opt  bezel: 0.2 to 30, its height
//	  base_mm      opt  bezel: 0 to 10, thickness of the plate under it; 0 is none
//	  weight_g     opt  prongs, part: 0 to 1000, of one
//	  alloy        opt  a key of the table of alloys: of bezel, wire and beads; the metal of the
//	                    band if left out
//	  price        opt  0 to 100000, of one, in the metal's currency; of wire of the whole
//	  margin_mm    opt  0 to 20: how far openings stay away
//	edits          opt  list, at most 1000, of what was done by hand, in at most 4000 places, mirror
//	                    images counted; the paths of "replace" and "add" together have at most 5000
//	                    edges. Where more lie over each other or nearer than the bridge than can be
//	                    trimmed in two seconds (some 3000 pairs of small circles, fewer of larger or
//	                    finer shapes), the later ones are left out, and the report says so:
//	  do                "solid" (cells are left solid), "change" (openings are moved, turned,
//	                    scaled), "replace" (they become another shape), "add" (a single opening is
//	                    cut) or "tie" (a bridge of metal is left across openings)
//	  at                list of 1 to 2000 places on the blank; each works on the cell that holds it,
//	                    of a tie each is its first end:
//	    x_mm            -500 to 500
//	    y_mm            -500 to 500
//	  mirror       opt  "along", "across" or "both": done at the mirror images as well
//	  move_x_mm    opt  change: -500 to 500, along the band (a flared one: round its arc)
//	  move_y_mm    opt  change: -500 to 500
//	  turn_deg     opt  -360 to 360
//	  scale        opt  change: 0.1 to 10; 1 if left out
//	  shape        opt  replace and add: "circle", "oval", "rectangle" or "path"
//	  width_mm     opt  its size, as a reserve's; tie: 0.1 to 150, its width, the bridge rule if
//	                    left out or less than that
//	  height_mm    opt  as a reserve's
//	  path         opt  SVG path data of one closed curve, in mm, y down as in SVG; the middle of
//	                    its box comes to lie at the place
//	  span_x_mm    opt  tie: -500 to 500, along the band, from its place to its other end; an end in
//	                    an opening is taken on to the metal
//	  span_y_mm    opt  tie: -500 to 500, across the band
//	  bow_mm       opt  tie: -500 to 500, of its middle off the straight line, to the left on the
//	                    way; an arc, at most half of a circle
//	  note         opt  text, at most 200 bytes
//	work           opt  what the maker says of his own bench; what is left out is not counted:
//	  kerf_mm      opt  0 to 3, of the blade or beam
//	  cut_mm_min   opt  0 to 100000: length cut in a minute
//	  opening_min  opt  0 to 1000: minutes to drill, thread and start an opening
//	  blade_mm     opt  0 to 100000: length of cut that a blade lasts
//	  hour_price   opt  0 to 100000, in the metal's currency
//	  least_angle_deg
//	               opt  0 to 90: metal angles under it are told; the usual 30 if left out
//	wear           opt  how an open cuff is put on, for the estimate of its stress:
//	  temper       opt  annealed, half-hard or hard, as far as the alloy has them; the softest if
//	                    left out
//	  proof_mpa    opt  0 to 2000: your own proof stress instead of the table's
//	  modulus_gpa  opt  0 to 400: your own Young's modulus
//	  open_mm      opt  0 to 100: by how much the gap is opened
//	underlay       opt  a picture, PNG or JPEG, that the window shows dimmed on the blank, to trace
//	                    from; it is in no file that is made of the design:
//	  file         opt  text, at most text, at most 1000 bytes bytes: where it is, from the design
//	                    file's folder on
//	  x_mm         opt  -500 to 500, of its middle
//	  y_mm         opt  the same across
//	  width_mm     opt  1 to 2000
//	  turn_deg     opt  -360 to 360, anticlockwise
//	accepted       opt  list, at most 200, of findings that the maker lets stand:
//	  finding           the key of the finding's kind, as "process-bridges"
//	  at           opt  the finding's place, if it has one:
//	    x_mm            -500 to 500
//	    y_mm            -500 to 500
//	  reason            text, at most 400 bytes
//	variants       opt  list, at most 20, of other designs of the same piece, each with the fields
//	                    of a design but variants of its own
package project

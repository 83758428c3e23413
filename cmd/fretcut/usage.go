package main

// usage is what help prints.
const usage = `usage:
  fretcut report [-json] [-full] DESIGN...
                                    what designs weigh and what to decide; -full has every
                                    figure, its source, and the cautions word for word
  fretcut strength [-json] [-open MM] [-push X,Y] [-picture FILE [-bent] [-replace]]
                [-coarse] [-memory MB] DESIGN
                                    how it carries load: stiffness, stress, yield and idle
                                    metal; FILE.svg or FILE.png shows the stress, with
                                    -bent also the band in its loaded shape
  fretcut make -out DIR [options] DESIGN...
                                    their cut files and saw templates
  fretcut make -for WHOM -out DIR [options] DESIGN...
                                    just what bench, laser, client or casting needs,
                                    with a job sheet, as NAME-laser.dxf and so on
  fretcut reach (-left GRAMS | -taken PERCENT | -lightest) [-json] [-way KEY -out FILE] [-replace]
                DESIGN
                                    ways to bring it to that weight, side by side;
                                    with -out the one of that key is written
  fretcut lighten [-left GRAMS] [-json] [-way KEY -out FILE] [-replace] DESIGN
                                    ways to have less metal that is as stiff and yields
                                    as late, solved and side by side
  fretcut gallery [NAME]            the built-in designs, or one of them to standard output

DESIGN is a design file, or - for one on standard input. DESIGN... may also be folders:
the design files in them and in their own folders are taken, but nothing hidden, no
linked folders and not DIR. The files of one design go to DIR, those of several or of a
folder to DIR/NAME each, or DIR/FOLDER/NAME, by the names of the folders and design files;
a design from standard input gives its own name.

options of make; lengths in mm, and 0 is what is usual:
  -copies N                         parts on the cut sheet and on the template's pages
  -process saw|laser|WORDS          how it is cut, over what WHOM and the design say
  -quote                            cost and working time on papers that leave the house
  -kerf MM                          what blade or beam takes away: cut files draw the
                                    middle of the cut; 0 draws the finished edges
  -curves arcs|arcs-r12|chords      of the cut files: true arcs in DXF R2000 or in DXF R12,
  -chord MM                         or chords, this near to the arc at most (0.005)
  -lead MM                          lead-ins in the waste, of this length; each is the first
                                    stretch of the line that it leads into (none)
  -words yes                        draws what the cut files say in the sheet's margin too,
                                    on a layer of its own (no)
  -openings-colour COLOUR           of the lines in cut files, for a machine that goes by
  -outline-colour COLOUR            colour: black, red, yellow, green, cyan, blue, magenta or
  -engraving-colour COLOUR          grey (black; engraving grey)
  -tabs N  -tab-width MM            that hold the part in the sheet (none, 0.4 wide)
  -sheet WIDTHxHEIGHT               the sheet to cut from, such as 200x100 (as needed)
  -gap MM  -margin MM               between parts, and to the sheet's edge (3, 5)
  -paper a4|letter|a3|legal|tabloid of the saw template (a4)
  -stress yes                       for bench or client: a picture of the stress too,
                                    PNG and SVG (no)
  -solid stl,3mf                    the bent band too, for casting patterns
  -date TEXT                        for the job sheet, as it stands
  -summary FILE                     what came of each design, as JSON; - prints it alone
  -replace                          files of other designs that stand in the way are replaced

Files of the same name are replaced if they are made of the same design, as it is or as it
was before an edit. Those of another design (told by its name; Untitled tells nothing, so
there the content has to be the same) or of none are replaced only with -replace, and so
is what stands where reach -out, lighten -out or -summary would write.

exit code: 0 fine; 1 a broken rule that is not accepted, or the metal falls to pieces and
nothing is made, or no way of reach gets there or of lighten is worth having; 2 bad input
or usage; 3 a fault of the program itself, which found it before anything was written:
please report it with the design. Of several designs it is the worst, and one that fails
does not stop the others.
`

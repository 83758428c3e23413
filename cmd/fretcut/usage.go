package main

// usage is what help prints.
const usage = `usage:
  fretcut report [-json] [-full] DESIGN...
                                    says what designs weigh, with what is added to them, and
                                    what there is to decide; -full gives every figure with
                                    its source, and the cautions in full
  fretcut strength [-json] [-open MM] [-push X,Y] [-picture FILE [-bent] [-replace]]
                [-coarse] [-memory MB] DESIGN
                                    says how a design carries load: stiffness, stress,
                                    yield and idle metal; FILE.svg or FILE.png shows the
                                    stress, and with -bent the band in its loaded shape too
  fretcut make -out DIR [options] DESIGN...
                                    makes their cut files and saw templates
  fretcut make -for WHOM -out DIR [options] DESIGN...
                                    makes what bench, laser, client or casting needs, with
                                    a job sheet; files are named NAME-laser.dxf and so on
  fretcut reach (-left GRAMS | -taken PERCENT | -lightest) [-json] [-way KEY -out FILE] [-replace]
                DESIGN
                                    shows ways to bring a design to that weight side by
                                    side; -out writes the one of that key
  fretcut lighten [-left GRAMS] [-json] [-way KEY -out FILE] [-replace] DESIGN
                                    solves ways to have less metal that is as stiff and
                                    yields as late, and shows them side by side
  fretcut gallery [NAME [-out FILE] [-replace]]
                                    lists the built-in designs, prints one of them, or
                                    writes it to a file
  fretcut version                   says which version this is, and of which commit

DESIGN is a design file, or - for standard input. DESIGN... may also name folders: fretcut
takes the design files in them and in their subfolders, but no hidden files, no linked
folders and nothing in DIR. The files of one design go to DIR. Those of several designs, or
of a folder, each go to DIR/NAME or DIR/FOLDER/NAME, named after the folders and design
files. A design from standard input is named by its own name.

options of make; lengths in mm, and 0 is what is usual:
  -copies N                         parts on the cut sheet and on the template's pages
  -process saw|laser|WORDS          how it is cut, whatever WHOM and the design say
  -quote                            gives cost and working time on papers that leave the
                                    house
  -kerf MM                          the width that blade or beam takes away: cut files then
                                    draw the middle of the cut; 0 draws the finished edges
  -curves arcs|arcs-r12|chords      curves of the cut files: true arcs in DXF R2000, true
                                    arcs in DXF R12, or straight chords
  -chord MM                         how far a chord may lie from its arc (0.005)
  -lead MM                          length of the lead-ins, which lie in the waste; each is
                                    the first stretch of the line that it leads into (none)
  -words yes                        draws the words of the cut files in the sheet's margin
                                    too, on a layer of their own (no)
  -openings-colour COLOUR           colours of the lines in cut files, for a machine that
  -outline-colour COLOUR            goes by colour: black, red, yellow, green, cyan, blue,
  -engraving-colour COLOUR          magenta or grey (black; engraving grey)
  -tabs N  -tab-width MM            tabs that hold the part in the sheet (none, 0.4 wide)
  -sheet WIDTHxHEIGHT               the sheet to cut from, such as 200x100 (as needed)
  -gap MM  -margin MM               metal left between parts, and to the sheet's edge (3, 5)
  -paper a4|letter|a3|legal|tabloid paper of the saw template (a4)
  -stress yes                       makes a picture of the stress too, PNG and SVG, for the
                                    bench or the client (no)
  -solid stl,3mf                    makes the bent band as a solid too, for casting patterns
  -date TEXT                        the date on the job sheet, as you write it
  -summary FILE                     writes what came of each design as JSON; - prints it
                                    and nothing else
  -replace                          replaces files of other designs that are in the way

Files of the same name are replaced if they were made of the same design, as it is now or
as it was before an edit. A design is known by its name; one called Untitled by its content
alone. Files of another design, or of none, are replaced only with -replace. The same goes
for a file that is already where reach -out, lighten -out or -summary would write.

Exit code: 0 all is well; 1 the design breaks a rule that its maker has not accepted, or
its metal falls to pieces and nothing is made, or no way of reach gets there, or none of
lighten is worth having; 2 bad input or usage; 3 a fault of the program itself, which it
found before it wrote anything: please report it with the design. With several designs it
is the worst of all, and one that fails does not stop the others.
`

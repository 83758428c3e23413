package added

// Gem is what a stone is of.
type Gem struct {
	Key, Name string
	Gravity   float64 // specific gravity; 0 for [OwnGem], whose it is given
}

// Word is what a stone of it is called in a line: its key, which is a word, or just a stone.
func (g Gem) Word() string {
	if g.Key == OwnGem {
		return "stone"
	}
	return g.Key
}

// Diamond has factors of weight of its own; OwnGem is the key of what is in no table.
const (
	Diamond = "diamond"
	OwnGem  = "own"
)

// Gems lists stones with their specific gravities: those of the International Gem Society's and
// Dendritics' tables, but for cubic zirconia (5.5 to 6.0), topaz and moonstone, which are from
// memory.
func Gems() []Gem {
	return []Gem{
		{Diamond, "Diamond", 3.52},
		{"corundum", "Corundum: ruby, sapphire", 4.00},
		{"beryl", "Beryl: emerald, aquamarine", 2.72},
		{"quartz", "Quartz: amethyst, citrine", 2.66},
		{"almandine", "Garnet: almandine", 4.05},
		{"rhodolite", "Garnet: rhodolite", 3.84},
		{"pyrope", "Garnet: pyrope", 3.78},
		{"peridot", "Peridot", 3.34},
		{"tourmaline", "Tourmaline", 3.06},
		{"spinel", "Spinel", 3.60},
		{"tanzanite", "Tanzanite", 3.35},
		{"chrysoberyl", "Chrysoberyl", 3.73},
		{"topaz", "Topaz", 3.53},
		{"zirconia", "Zirconia, cubic", 5.75},
		{"turquoise", "Turquoise", 2.76},
		{"lapis", "Lapis lazuli", 2.75},
		{"jadeite", "Jadeite", 3.34},
		{"nephrite", "Nephrite", 2.95},
		{"opal", "Opal", 2.15},
		{"malachite", "Malachite", 3.95},
		{"moonstone", "Moonstone", 2.57},
		{"coral", "Coral", 2.65},
		{"pearl", "Pearl", 2.70},
		{OwnGem, "Another stone", 0},
	}
}

// GemOf returns the gem of a key, and whether there is one.
func GemOf(key string) (Gem, bool) {
	for _, g := range Gems() {
		if g.Key == key {
			return g, true
		}
	}
	return Gem{}, false
}

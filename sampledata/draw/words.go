package draw

var houseRules = []string{
	"Ladies and gentlemen are begged to enter by the street door and to leave by the sea door, except at high water.",
	"Latecomers will be seated between movements, and not between notes.",
	"Umbrellas are to be left with Mr Dunflete in the lobby, who will return them mended or not, as found.",
	"Coughing is permitted during the tuning, which has been lengthened for the purpose.",
	"Dogs are admitted to the gallery on the understanding that they prefer the slow movements.",
	"No encore may be asked of the harp after nine o’clock, when the ferry takes it home.",
	"Lost gloves are pinned to the board by the sea door and are given to the choir at midsummer.",
}

var season = [][3]string{
	{"Michaelmas", "glees and catches", "The men’s voices under the Custom House arches, weather and the herring permitting. Bring a lantern."},
	{"Winter", "this evening’s concert", "In aid of the Lighthouse Band Fund, which still wants a bass drum and the stairs to carry it up."},
	{"Lent", "chamber music by candles", "Quartets in the Net Loft. Candles are sold at the door in three lengths, according to the work."},
	{"Whitsun", "the regatta cantata", "Sung from four boats at anchor. The audience is advised to arrive early and to row quietly."},
}

var officers = [][2]string{
	{"Officers of the Society", ""},
	{"President", "Dame Ottoline Marchpane"},
	{"Treasurer", "Mr Crispin Oddlestone"},
	{"Secretary", "Miss Thea Wrackham"},
	{"Librarian of the parts", "Mr Ansel Pikerow"},
	{"Keeper of the harp", "Mrs Ida Fennimarsh"},
	{"Committee", ""},
	{"For the strings", "Miss Odile Farrowby"},
	{"For the winds", "Mr Jabez Sallowtree"},
	{"For the voices", "Mrs Perpetua Glasswright"},
	{"For the chairs", "Mr Silas Underquay"},
	{"Patrons of this evening", ""},
	{"The Harbour Master", "a new kettledrum skin"},
	{"The Guild of Netmakers", "forty chairs, nearly alike"},
	{"The Lamp Keepers", "oil, and their best wishes"},
	{"A Friend in the Gallery", "one guinea, by rope"},
}

var partOne = [][2]string{
	{"Part the First", ""},
	{"Overture, The Tin Lighthouse", "O. Vellacorm"},
	{"Song, The Ferry Has Gone", "T. Askerlowe"},
	{"Romance for strings", "Hester Quaile"},
	{"Glee, Seven Grey Geese", "traditional here"},
	{"Concerto for post horn", "O. Vellacorm"},
	{"   i. Briskly, as the mail", ""},
	{"   ii. Slowly, as the mail in snow", ""},
	{"   iii. At a canter", ""},
	{"The Interval", ""},
	{"Tea in the yard", "The Copper Ladle"},
	{"Bell", "after twenty minutes"},
}

var partTwo = [][2]string{
	{"Part the Second", ""},
	{"Symphony in E flat, The Estuary", "Hester Quaile"},
	{"   i. Low water", ""},
	{"   ii. The mud larks", ""},
	{"   iii. Fog, with bell", ""},
	{"   iv. The flood", ""},
	{"Songs with harp", "T. Askerlowe"},
	{"The net mender", "Miss Iris Corvane"},
	{"A lantern in the rain", "Mr Bram Holloquist"},
	{"Chorus and Finale", ""},
	{"Cantata, The Lamp Relit", "O. Vellacorm"},
	{"Good night", "all"},
}

var orchestra = [][2]string{
	{"Violins", "Odile Farrowby, Cosmo Tredwary, Nell Ashplover, Ivo Marchbane, Lettice Crome-Hay, Rufus Pennywhit, Ada Sealark, Tom Dulverquay, Minna Thornbeck, Giles Oatrick"},
	{"Violas", "Dorcas Wimblow, Hugo Fenrush, Pia Lockholm, Amos Sandrell"},
	{"Cellos", "Bertram Gullivaine, Rosalind Ebbworth, Kit Marrowby, Una Plashett"},
	{"Basses", "Septimus Groyne, Clem Harbottlow"},
	{"Flutes", "Faith Windlestraw, Jory Penmarle"},
	{"Oboes", "Edith Reedham-Skell, Noll Tansy"},
	{"Clarinets", "Jabez Sallowtree, Wilf Bramley-Oke"},
	{"Bassoons", "Augustus Lowdon-Peat, Meg Tarrybrook"},
	{"Horns", "Saul Brassby, Enid Copperfold, Perrin Huntley-Vale"},
	{"Trumpets", "Gideon Clarrick, Phoebe Sundrake"},
	{"Drums", "Barnaby Thunderhill"},
	{"Harp", "Ida Fennimarsh"},
}

const platformWords = "Each ring stands for a chair and each dot for a player known to be coming. The chairs without dots are for cousins, for the Harbour Master, and for the second bassoon’s overcoat, which is large. The harp stands where it was put down."

var overtureNote = []string{
	"When the old wooden tower burned, the keepers hung a stable lantern in a biscuit tin and rowed it out to the rock, and for eleven weeks no boat was lost. Vellacorm, who was a boy then and held the ladder, wrote the overture forty years later from memory and, some say, from the tin.",
	"It begins with a single held note in the oboe, which is the tin in still air. The strings come in beneath it like the swell under a moored boat; a second theme, in the horns, is the rowing. Where the full band enters for the first time the listener may count seven beats, and then the lamp goes round.",
	"The middle part is stormy and was once thought impossible to play. It is now thought only unkind. The bassoons have asked for it to be mentioned that the wrong note in the ninth bar is in the parts.",
	"At the close the held note returns, now in the whole of the wind, and one hears that it had been there all the time.",
}

var romanceNote = []string{
	"Hester Quaile kept the toll bridge at Nether Sallow for thirty years and wrote her music between carts. The Romance has accordingly many rests, all of them in good places. It was first heard through the toll-house window by a company of drovers, who stopped, paid twice, and went on.",
	"The violas have the tune. This is so seldom the case that they are asked to stand. A second strain, in three against two, is said to be the sound of wheels that do not agree; it is resolved, as such things are, by going more slowly.",
	"The parts used this evening were copied by the composer on the backs of way-bills. Those who sit near may read, behind the violins, what was owed for eleven sheep.",
}

var hornNote = []string{
	"The post horn has only the notes that nature gave it, and Vellacorm, who was fond of nature, gave it no others. The soloist must therefore choose when to breathe, and the orchestra must choose with him. The first movement leaves the yard at a brisk trot and changes horses twice.",
	"In the slow movement the mail is late. Snow is shown by the second violins, who play as softly as they are able, and then are asked for less. The horn is heard from outside the hall; the doors must be opened for it, and the audience is advised to keep its wraps.",
	"The last movement is a canter home. It contains the passage that was whistled by every errand boy in the town for a whole summer, until the council asked them to whistle something else, and they whistled the Romance.",
}

var estuaryNote = []string{
	"The Symphony was begun at low water and finished, the composer tells us, upon a chair. It follows one tide from ebb to flood. At the beginning there is almost nothing: a drum, a gull, the basses walking about on the sand in the dark.",
	"The scherzo belongs to the mud larks, by which children are meant and not birds. They find a boot, a bottle and a church bell, each of which has its own tune, and are called in to supper by the trumpets.",
	"Fog is a slow movement in one long line, passed from desk to desk so that no player has to see the whole of it. The bell is struck behind the platform by Mr Underquay, who can be trusted with it.",
	"In the last movement the water comes back. It is best listened to with the feet lifted a little from the floor.",
}

var artistsNote = []string{
	"Miss Iris Corvane, soprano, was taught by her aunts, of whom there are five, each in charge of a different register. She has sung in every room in Quillhaven that has a ceiling and in two that have not. Her nets are as well mended as her phrases.",
	"Mr Bram Holloquist, baritone, came for the regatta nine years ago and missed the boat. The Society is grateful to the boat.",
	"Mr Saul Brassby, post horn, has carried the mail, the coal and the tune. He asks that nobody stand directly in front of him.",
	"Mr Ludo Penhaskett has conducted the Society since the last conductor sat down. His baton was turned from a rib of the old lifeboat, and when it points at you it is as well to be ready.",
}

var ferrySong = [][]string{
	{"The ferry has gone and the river is wide,", "The lamp on the landing is low,", "And I have my supper, my shoes and my pride,", "And nowhere this evening to go."},
	{"The heron is keeping the opposite shore,", "He stands like a question unasked;", "He looks at the water, and looks at it more,", "As if it would tell him at last."},
	{"O ferryman, ferryman, turn your prow round,", "There’s one you have left by the stair!", "But only the rope and the river make sound,", "And neither of these seems to care."},
	{"So I’ll sit on the landing and sing to the tide", "Until it has carried me home,", "For he that can sing has a boat at his side", "And the whole of the river to roam."},
}

var geeseSong = [][]string{
	{"Seven grey geese on a Saturday flew", "Over the marsh in a line,", "One for the weather and one for the view,", "And five for the pleasure of mine."},
	{"Six of them settled on Parsonage Lake,", "One of them flew to the moon,", "And there she is sitting, for somebody’s sake,", "And humming the end of the tune."},
	{"Come in from the orchard, come down from the stair,", "Come up from the boats on the sand,", "There’s singing tonight in the open air", "And a goose at the head of the band."},
}

import type { Field } from "../model/column-map.ts";

/**
 * Usual names of tree columns in other languages, without accents: German, French, Spanish, Portuguese, Italian, Dutch, Danish, Norwegian,
 * Swedish, Polish, Japanese, Chinese and Korean. From memory of the trade's words and of open city data.
 */
export const FOREIGN_COLUMN_NAMES: { readonly [F in Field<"trees">]?: string } = {
  id: "baumid baumnr baumnummer baumnum idarbre idbase idarbol codigoarbol idalbero boomid boomnummer traeid",
  species:
    "artbot artbotanisch botanischername wissenschaftlichername baumart artlatein artlat nombotanique nomscientifique nomlatin essence libelleessence nombrecientifico espece especie nomecientifico specie nomescientifico soort boomsoort wetenschappelijkenaam soortnaam latinsknavn art latinsktnavn slaktart gatunek nazwalacinska 樹種 树种 수종",
  genus: "gattung genre genero genere geslacht boomgeslacht slekt rodzaj",
  common_name:
    "artdtsch artdeutsch deutschername namedeutsch nomcommun nomfrancais libellefrancais nomvernaculaire nombrecomun nomecomum nomepopular nomecomune nederlandsenaam nazwapolska nazwa 樹名 树名",
  dbh: "bhd brusthohendurchmesser stammdurchmesser stammdurch durchmesser diametre diametretronc diametro diametrotronco dap diametrodap stamdiameter diametertronc piersnica 胸高直径 胸径 흉고직경",
  girth:
    "stammumfang stammumfg umfang circonference circonferenceencm circonf perimetro perimetrotronco circunferencia circonferenza stamomtrek omtrek stammeomkrets stamomkreds obwod obwodpnia 幹周 胸围 흉고둘레",
  height:
    "hohe hoehe baumhohe baumhoehe baumhoh hauteur hauteurarbre hauteurm haut altura alturatotal altezza alt hoogte boomhoogte hojde hoyde trehojde wysokosc wysokoscdrzewa 樹高 树高 수고",
  crown_base:
    "kronenansatz kronenansatzhohe kronenansatzhoehe hauteurfut hauteurdufut hauteursouscouronne alturacopabase alturaprimerarama alturafuste takvrijehoogte takvrijestam opkroonhoogte 枝下高 지하고",
  crown_spread:
    "kronendurchmesser kronedurch kronendurch kronenbreite diametrecouronne largeurcouronne envergure diametrocopa diametrodecopa anchocopa diametrochioma larghezzachioma kroondiameter kroonbreedte kronediameter kronebredde srednicakorony 枝張 枝張り 葉張 冠幅 수관폭",
  crown_radius: "kronenradius rayoncouronne radiocopa raggiochioma kroonstraal",
  planted:
    "pflanzjahr pflanzdatum gepflanzt dateplantation anneeplantation anneedeplantation datedeplantation fechaplantacion anoplantacion dataplantio datapiantumazione annopiantumazione plantjaar plantdatum planteaar plantear planteringsar jaarvanaanleg datanasadzenia 植栽年 植栽日",
  last_pruned: "letzterschnitt letzteschnittmassnahme dateelagage dateelagagedernier fechapoda ultimapoda datasnoei",
  condition:
    "zustand vitalitat vitalitaet etat etatsanitaire estado estadosanitario estadofitosanitario stato conditie gezondheid tilstand stan",
  street: "strasse strassenname rue nomrue nomvoie voie calle via straat straatnaam gate ulica",
  address: "adresse adressierung direccion indirizzo adres",
  owner: "eigentumer eigentuemer proprietaire propietario proprietario eigenaar",
};

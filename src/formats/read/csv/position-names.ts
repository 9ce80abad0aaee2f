/**
 * Names of columns that hold a position, without case, accents and marks. From memory of open city data in English, Spanish, French,
 * German, Italian, Portuguese, Dutch, the Scandinavian languages, Finnish, Polish, Czech, Russian, Chinese and Japanese.
 */
export interface PositionNames {
  readonly east: ReadonlySet<string>;
  readonly north: ReadonlySet<string>;
  /** Whether the pair is longitude and latitude by its names. */
  readonly isDegrees: boolean;
}

const set = (words: string): ReadonlySet<string> => new Set(words.split(" "));

/** Pairs in the order in which they are looked for. */
export const POSITION_NAMES: readonly PositionNames[] = [
  {
    isDegrees: true,
    east: set(
      "longitude lon long lng longdeg londeg longdd londd longitudedd decimallongitude declong lonwgs84 longwgs84 wgs84lon gpslongitude gpslon " +
        "geolon geolong geolongitude pointlongitude longitud longitudine laengengrad langengrad laenge lange geographischelange lengtegraad " +
        "lengte lengdegrad langdgrad laengdegrad pituusaste pituus dlugosc długosc dlugoscgeograficzna długoscgeograficzna zemepisnadelka " +
        "долгота 経度 经度 經度",
    ),
    north: set(
      "latitude lat latdeg latdd latitudedd decimallatitude declat latwgs84 wgs84lat gpslatitude gpslat geolat geolatitude pointlatitude " +
        "latitud latitudine breitengrad breite geographischebreite breedtegraad breedte breddegrad leveysaste leveys szerokosc " +
        "szerokoscgeograficzna zemepisnasirka широта 緯度 纬度 緯度wgs84",
    ),
  },
  {
    isDegrees: false,
    east: set(
      "x xcoord xcoordinate coordx coordinatex xcoordinaat coordenadax coordonneex coordinatax xkoordinate koordinatex koordinatx xkoordinat pointx geox geomx " +
        "shapex centroidx xcentroid utmx xutm xetrs89 xl93 xlambert93 xlambert lambertx xcoordnad83 statex xft xm xpos posx mapx",
    ),
    north: set(
      "y ycoord ycoordinate coordy coordinatey ycoordinaat coordenaday coordonneey coordinatay ykoordinate koordinatey koordinaty ykoordinat pointy geoy geomy " +
        "shapey centroidy ycentroid utmy yutm yetrs89 yl93 ylambert93 ylambert lamberty ycoordnad83 statey yft ym ypos posy mapy",
    ),
  },
  {
    isDegrees: false,
    east: set("easting eastings east utmeasting utme este rechtswert ostwert hochrechts esting xeasting"),
    north: set("northing northings north utmnorthing utmn norte hochwert nordwert ynorthing"),
  },
];

/** Names of a column that holds both numbers of a position, latitude first unless the name says otherwise. */
export const POINT_NAMES: ReadonlySet<string> = set(
  "geopoint geopoint2d location latlng latlon latlong latitudelongitude coordinates coordenadas coordonnees koordinaten geolocation geolocalisation lonlat longlat lnglat",
);

const MAX_NAME = 256;

/** A column's name as it is compared: lower case, without accents, blanks and marks of ASCII. */
export function plainName(name: string): string {
  let plain = "";
  for (const letter of name.slice(0, MAX_NAME).toLowerCase().normalize("NFD")) {
    const code = letter.codePointAt(0)!;
    const isAccent = code >= 0x300 && code <= 0x36f;
    const isWord = code >= 0x80 || (code >= 48 && code <= 57) || (code >= 97 && code <= 122);
    if (isWord && !isAccent) plain += letter;
  }
  return plain;
}

import { describe, expect, it } from "vitest";
import { coordinateSystem } from "../../../src/formats/crs/coordinate-system.ts";

/** Long Island, 1,000,000 ft east and 200,000 ft north: PROJ 9.1.1, see tests/outside/proj-cs2cs-coordinate-systems.test.ts. */
const LONG_ISLAND = [-73.943185068, 40.715616479];
/** London, 530,000 m east and 180,000 m north, same source. */
const LONDON = [-0.12835394, 51.503990828];

const LONG_ISLAND_ESRI =
  'PROJCS["NAD_1983_StatePlane_New_York_Long_Island_FIPS_3104_Feet",GEOGCS["GCS_North_American_1983",DATUM["D_North_American_1983",' +
  'SPHEROID["GRS_1980",6378137.0,298.257222101]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],' +
  'PROJECTION["Lambert_Conformal_Conic"],PARAMETER["False_Easting",984250.0],PARAMETER["False_Northing",0.0],' +
  'PARAMETER["Central_Meridian",-74.0],PARAMETER["Standard_Parallel_1",41.03333333333333],' +
  'PARAMETER["Standard_Parallel_2",40.66666666666666],PARAMETER["Latitude_Of_Origin",40.16666666666666],' +
  'UNIT["Foot_US",0.304800609601219]]';
const LONDON_ESRI =
  'PROJCS["British_National_Grid",GEOGCS["GCS_OSGB_1936",DATUM["D_OSGB_1936",SPHEROID["Airy_1830",6377563.396,299.3249646]],' +
  'PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["False_Easting",400000.0],' +
  'PARAMETER["False_Northing",-100000.0],PARAMETER["Central_Meridian",-2.0],PARAMETER["Scale_Factor",0.9996012717],' +
  'PARAMETER["Latitude_Of_Origin",49.0],UNIT["Meter",1.0]]';
const LONG_ISLAND_WKT2 =
  'PROJCRS["NAD83 / New York Long Island (ftUS)",BASEGEOGCRS["NAD83",DATUM["North American Datum 1983",ELLIPSOID["GRS 1980",6378137,' +
  '298.257222101,LENGTHUNIT["metre",1]]],PRIMEM["Greenwich",0,ANGLEUNIT["degree",0.0174532925199433]]],' +
  'CONVERSION["SPCS83 New York Long Island zone (US Survey feet)",METHOD["Lambert Conic Conformal (2SP)"],' +
  'PARAMETER["Latitude of false origin",40.1666666666667,ANGLEUNIT["degree",0.0174532925199433]],' +
  'PARAMETER["Longitude of false origin",-74,ANGLEUNIT["degree",0.0174532925199433]],' +
  'PARAMETER["Latitude of 1st standard parallel",41.0333333333333,ANGLEUNIT["degree",0.0174532925199433]],' +
  'PARAMETER["Latitude of 2nd standard parallel",40.6666666666667,ANGLEUNIT["degree",0.0174532925199433]],' +
  'PARAMETER["Easting at false origin",984250,LENGTHUNIT["US survey foot",0.304800609601219]],' +
  'PARAMETER["Northing at false origin",0,LENGTHUNIT["US survey foot",0.304800609601219]]],CS[Cartesian,2],' +
  'AXIS["easting (X)",east,ORDER[1],LENGTHUNIT["US survey foot",0.304800609601219]],' +
  'AXIS["northing (Y)",north,ORDER[2],LENGTHUNIT["US survey foot",0.304800609601219]]]';
const LONDON_PROJJSON = JSON.stringify({
  type: "ProjectedCRS",
  name: "OSGB36 / British National Grid",
  base_crs: {
    name: "OSGB36",
    datum: {
      type: "GeodeticReferenceFrame",
      name: "Ordnance Survey of Great Britain 1936",
      ellipsoid: { name: "Airy 1830", semi_major_axis: 6377563.396, inverse_flattening: 299.3249646 },
    },
    coordinate_system: {
      subtype: "ellipsoidal",
      axis: [
        { name: "Geodetic latitude", abbreviation: "Lat", direction: "north", unit: "degree" },
        { name: "Geodetic longitude", abbreviation: "Lon", direction: "east", unit: "degree" },
      ],
    },
  },
  conversion: {
    name: "British National Grid",
    method: { name: "Transverse Mercator" },
    parameters: [
      { name: "Latitude of natural origin", value: 49, unit: "degree" },
      { name: "Longitude of natural origin", value: -2, unit: "degree" },
      { name: "Scale factor at natural origin", value: 0.9996012717, unit: "unity" },
      { name: "False easting", value: 400000, unit: "metre" },
      { name: "False northing", value: -100000, unit: "metre" },
    ],
  },
  coordinate_system: {
    subtype: "Cartesian",
    axis: [
      { name: "Easting", abbreviation: "E", direction: "east", unit: "metre" },
      { name: "Northing", abbreviation: "N", direction: "north", unit: "metre" },
    ],
  },
});

/** 1e-7 degrees are a centimeter, our demand. */
const near = (degrees: readonly number[]) => degrees.map((value) => expect.closeTo(value, 6.7));

describe("coordinateSystem", () => {
  it.each([
    "EPSG:2263",
    "epsg:2263",
    " 2263 ",
    "urn:ogc:def:crs:EPSG::2263",
    "urn:ogc:def:crs:EPSG:9.9:2263",
    "http://www.opengis.net/def/crs/EPSG/0/2263",
    "ESRI:102718",
    "+proj=lcc +lat_0=40.1666666666667 +lon_0=-74 +lat_1=41.0333333333333 +lat_2=40.6666666666667 +x_0=300000 +y_0=0 +datum=NAD83 +units=us-ft",
    LONG_ISLAND_ESRI,
    LONG_ISLAND_WKT2,
    `COMPD_CS["with heights",${LONG_ISLAND_ESRI},VERT_CS["NAVD88",VERT_DATUM["NAVD88",2005],UNIT["metre",1]]]`,
  ])("reads New York Long Island in US survey feet from %s", async (text) => {
    const system = await coordinateSystem(text);
    expect(system.toLonLat!(1_000_000, 200_000)).toEqual(near(LONG_ISLAND));
    expect([system.datum.kind, system.isGeographic]).toEqual(["same", false]);
  });

  it.each(["EPSG:27700", LONDON_ESRI, LONDON_PROJJSON])(
    "reads the British National Grid with the published shift and its error from %s",
    async (text) => {
      const system = await coordinateSystem(text);
      expect(system.toLonLat!(530_000, 180_000)).toEqual(near(LONDON));
      expect(system.datum).toMatchObject({ kind: "shifted", errorM: 2, source: "EPSG:1314" });
    },
  );

  it("takes the unit from the definition, never from the name State Plane", async () => {
    const [survey, international] = await Promise.all([coordinateSystem("EPSG:2225"), coordinateSystem("EPSG:2269")]);
    expect(survey.title).toContain("ftUS");
    expect(international.title).toContain("(ft)");
  });

  it.each([
    "EPSG:3857",
    "EPSG:900913",
    'PROJCS["WGS_1984_Web_Mercator_Auxiliary_Sphere",GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],PROJECTION["Mercator_Auxiliary_Sphere"],PARAMETER["Central_Meridian",0.0],PARAMETER["Auxiliary_Sphere_Type",0.0],UNIT["Meter",1.0]]',
  ])("takes web Mercator for a sphere: %s", async (text) => {
    const system = await coordinateSystem(text);
    // x is the longitude in radians times 6,378,137 m.
    expect(system.toLonLat!((6_378_137 * Math.PI) / 2, 0)).toEqual(near([90, 0]));
    expect(system.toLonLat!(-8_235_000, 4_970_000)).toEqual(near([-73.976263647, 40.712312607]));
    expect(system.datum.kind).toBe("exact");
  });

  it("shifts longitude and latitude of another datum, and leaves those of a world datum", async () => {
    const london = await coordinateSystem("EPSG:4277");
    expect(london.isGeographic).toBe(true);
    // Greenwich is 0 there and about 0.0016 degrees, 110 m, west on WGS 84 (the well-known offset of the airy meridian line).
    const [lonDeg] = london.toLonLat!(0, 51.4778);
    expect(lonDeg).toBeGreaterThan(-0.0018);
    expect(lonDeg).toBeLessThan(-0.0014);
    expect((await coordinateSystem("EPSG:4269")).toLonLat).toBeNull();
    expect((await coordinateSystem("EPSG:4617")).toLonLat).toBeNull();
  });

  it("says the size of a coarse shift, and that there is none", async () => {
    // NAD27 west of the Mississippi: EPSG:1175, 7 m.
    expect((await coordinateSystem("EPSG:32040")).datum).toMatchObject({
      kind: "shifted",
      errorM: 7,
      source: "EPSG:1175",
    });
    // No shift from Xian 1980 is published.
    expect((await coordinateSystem("EPSG:2327")).datum.kind).toBe("unknown");
    expect((await coordinateSystem("+proj=tmerc +lat_0=0 +lon_0=9 +ellps=bessel")).datum.kind).toBe("unknown");
  });

  it.each([
    "EPSG:99999",
    "EPSG:",
    "",
    "nonsense",
    "+proj=nonsense",
    "+proj=longlat +ellps=bessel +nadgrids=BETA2007.gsb",
    "+proj=tmerc +axis=wsu +lon_0=19",
    // Axes toward west and south, heights alone, a sphere, the center of the earth.
    "EPSG:2048",
    "EPSG:5703",
    "EPSG:53001",
    "EPSG:4978",
    "PROJCS[",
    "[]",
    "{}",
    "{nope",
    '{"type":"ProjectedCRS"}',
    'LOCAL_CS["site grid",LOCAL_DATUM["x",0],UNIT["metre",1],AXIS["x",EAST],AXIS["y",NORTH]]',
    `${"A[".repeat(5000)}${"]".repeat(5000)}`,
    `{"a":${"[".repeat(5000)}${"]".repeat(5000)}}`,
    `GEOGCS["x",${" ".repeat(30_000)}]`,
    '__proto__["polluted",1]',
    'PROJCS["x",__proto__["polluted",1],constructor["prototype",["polluted",1]]]',
    '{"__proto__":{"polluted":1},"type":"ProjectedCRS","base_crs":{"__proto__":{"polluted":1}}}',
  ])("refuses %s in one plain sentence", async (text) => {
    const refusal = await coordinateSystem(text).then(
      () => null,
      (error: unknown) => error,
    );
    expect(refusal).toBeInstanceOf(RangeError);
    expect((refusal as RangeError).message).toContain("Give its EPSG code");
    expect((refusal as RangeError).message.length).toBeLessThan(400);
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  });

  it("gives no finite place where there is none, and throws nothing", async () => {
    const system = await coordinateSystem("EPSG:2263");
    for (const [x, y] of [
      [1e300, 1e300],
      [Number.NaN, 0],
      [Infinity, 0],
    ] as const) {
      expect(() => system.toLonLat!(x, y)).not.toThrow();
    }
  });
});

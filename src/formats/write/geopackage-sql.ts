/** `"GPKG"` and version 1.3.0 in the header of the file (OGC 12-128r17 section 1.1.1.1). */
export const APPLICATION_ID = 0x47504b47;
export const USER_VERSION = 10300;

/** Tables every GeoPackage of features has, and those of the schema extension (OGC 12-128r17 annexes C and F.9). */
export const CORE_TABLES = `
CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT NOT NULL, srs_id INTEGER PRIMARY KEY, organization TEXT NOT NULL,
  organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
CREATE TABLE gpkg_contents (table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE,
  description TEXT DEFAULT '', last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
CREATE TABLE gpkg_geometry_columns (table_name TEXT NOT NULL, column_name TEXT NOT NULL, geometry_type_name TEXT NOT NULL,
  srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m TINYINT NOT NULL,
  CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name), CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id));
CREATE TABLE gpkg_extensions (table_name TEXT, column_name TEXT, extension_name TEXT NOT NULL, definition TEXT NOT NULL,
  scope TEXT NOT NULL, CONSTRAINT ge_tce UNIQUE (table_name, column_name, extension_name));
CREATE TABLE gpkg_data_columns (table_name TEXT NOT NULL, column_name TEXT NOT NULL, name TEXT, title TEXT, description TEXT,
  mime_type TEXT, constraint_name TEXT, CONSTRAINT pk_gdc PRIMARY KEY (table_name, column_name),
  CONSTRAINT gdc_tn UNIQUE (table_name, name));
CREATE TABLE gpkg_data_column_constraints (constraint_name TEXT NOT NULL, constraint_type TEXT NOT NULL, value TEXT, min NUMERIC,
  min_is_inclusive BOOLEAN, max NUMERIC, max_is_inclusive BOOLEAN, description TEXT,
  CONSTRAINT gdcc_ntv UNIQUE (constraint_name, constraint_type, value));
INSERT INTO gpkg_extensions VALUES
  ('gpkg_data_columns', NULL, 'gpkg_schema', 'http://www.geopackage.org/spec130/#extension_schema', 'read-write'),
  ('gpkg_data_column_constraints', NULL, 'gpkg_schema', 'http://www.geopackage.org/spec130/#extension_schema', 'read-write');
INSERT INTO gpkg_spatial_ref_sys VALUES
  ('Undefined cartesian SRS', -1, 'NONE', -1, 'undefined', 'undefined cartesian coordinate reference system'),
  ('Undefined geographic SRS', 0, 'NONE', 0, 'undefined', 'undefined geographic coordinate reference system'),
  ('WGS 84 geodetic', 4326, 'EPSG', 4326,
   'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AXIS["Latitude",NORTH],AXIS["Longitude",EAST],AUTHORITY["EPSG","4326"]]',
   'longitude/latitude coordinates in decimal degrees on the WGS 84 spheroid');
`;

/** An SQL identifier in double quotes. */
export const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** Name of a feature table's spatial index. */
export const indexName = (table: string, geometry: string): string => `rtree_${table}_${geometry}`;

/** Triggers that keep a spatial index true when another program edits the table (OGC 12-128r17 annex F.3). */
export function indexTriggers(table: string, geometry: string, key: string): string {
  const name = indexName(table, geometry);
  const [t, g, i, index] = [table, geometry, key, name].map(quoted) as [string, string, string, string];
  const box = `VALUES (NEW.${i}, ST_MinX(NEW.${g}), ST_MaxX(NEW.${g}), ST_MinY(NEW.${g}), ST_MaxY(NEW.${g}))`;
  const isFull = `(NEW.${g} NOTNULL AND NOT ST_IsEmpty(NEW.${g}))`;
  const isBlank = `(NEW.${g} ISNULL OR ST_IsEmpty(NEW.${g}))`;
  const trigger = (suffix: string, when: string, does: string): string =>
    `CREATE TRIGGER ${quoted(`${name}_${suffix}`)} AFTER ${when} BEGIN ${does} END;`;
  return [
    trigger("insert", `INSERT ON ${t} WHEN ${isFull}`, `INSERT OR REPLACE INTO ${index} ${box};`),
    trigger(
      "update1",
      `UPDATE OF ${g} ON ${t} WHEN OLD.${i} = NEW.${i} AND ${isFull}`,
      `INSERT OR REPLACE INTO ${index} ${box};`,
    ),
    trigger(
      "update2",
      `UPDATE OF ${g} ON ${t} WHEN OLD.${i} = NEW.${i} AND ${isBlank}`,
      `DELETE FROM ${index} WHERE id = OLD.${i};`,
    ),
    trigger(
      "update3",
      `UPDATE ON ${t} WHEN OLD.${i} != NEW.${i} AND ${isFull}`,
      `DELETE FROM ${index} WHERE id = OLD.${i}; INSERT OR REPLACE INTO ${index} ${box};`,
    ),
    trigger(
      "update4",
      `UPDATE ON ${t} WHEN OLD.${i} != NEW.${i} AND ${isBlank}`,
      `DELETE FROM ${index} WHERE id IN (OLD.${i}, NEW.${i});`,
    ),
    trigger("delete", `DELETE ON ${t} WHEN OLD.${g} NOT NULL`, `DELETE FROM ${index} WHERE id = OLD.${i};`),
  ].join("\n");
}

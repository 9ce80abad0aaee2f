-- Published shifts to WGS 84 (or to a datum within a meter of it) that need no grid file, from the EPSG dataset v10.076 (31 August 2022)
-- as PROJ 9.1.1 carries it:  sqlite3 -header -csv proj.db < helmert.sql > helmert.csv
-- Rotations in arc-seconds as position vector (EPSG method 9606; those of coordinate frame 9607 change sign), scale in parts per million.
select replace(d.name, ' ', '_') as datum, g.name as system, h.code as operation, h.accuracy as accuracy_m,
  h.tx, h.ty, h.tz,
  case h.method_code when 9607 then -1 else 1 end * coalesce(h.rx, 0) as rx,
  case h.method_code when 9607 then -1 else 1 end * coalesce(h.ry, 0) as ry,
  case h.method_code when 9607 then -1 else 1 end * coalesce(h.rz, 0) as rz,
  coalesce(h.scale_difference, 0) as s,
  e.south_lat as south, e.west_lon as west, e.north_lat as north, e.east_lon as east
from helmert_transformation_table h
join geodetic_crs g on g.auth_name = h.source_crs_auth_name and g.code = h.source_crs_code
join geodetic_datum d on d.auth_name = g.datum_auth_name and d.code = g.datum_code
join usage u on u.object_table_name = 'helmert_transformation' and u.object_auth_name = h.auth_name and u.object_code = h.code
join extent e on e.auth_name = u.extent_auth_name and e.code = u.extent_code
where h.auth_name = 'EPSG' and h.deprecated = 0 and h.rate_tx is null and h.accuracy is not null
  and g.type = 'geographic 2D'
  and h.target_crs_code in (4326, 4258) and h.method_code in (9603, 9606, 9607)
  and h.translation_uom_code = 9001
  and coalesce(h.rotation_uom_code, 9104) = 9104 and coalesce(h.scale_difference_uom_code, 9202) = 9202
order by g.code, h.code, h.target_crs_code desc;

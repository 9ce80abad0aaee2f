-- Published shifts to WGS 84 (or to ETRS89, which lies within a meter of it) that need no grid file, from the EPSG dataset v10.076 (31 August
-- 2022) as PROJ 9.1.1 carries it:  sqlite3 -header -csv proj.db < helmert.sql > helmert.csv
-- Translations in meters, rotations in arc-seconds as position vector (EPSG method 9606; those of coordinate frame, 9607, change sign), scale
-- in parts per million.
select replace(d.name, ' ', '_') as datum, g.name as system, h.code as operation, h.accuracy as accuracy_m,
  h.tx, h.ty, h.tz,
  round(coalesce(h.rx, 0) * turn.factor, 9) as rx,
  round(coalesce(h.ry, 0) * turn.factor, 9) as ry,
  round(coalesce(h.rz, 0) * turn.factor, 9) as rz,
  coalesce(h.scale_difference, 0) * case h.scale_difference_uom_code when 1028 then 0.001 when 9201 then 1e6 else 1 end as s,
  e.south_lat as south, e.west_lon as west, e.north_lat as north, e.east_lon as east
from helmert_transformation_table h
join (
  select code, auth_name, case method_code when 9607 then -1 else 1 end
    -- arc-seconds in a microradian, a radian, a milliarc-second, a centesimal second; 9104 is the arc-second
    * case rotation_uom_code when 9109 then 0.20626480624709636 when 9101 then 206264.80624709636 when 1031 then 0.001
      when 9113 then 0.324 else 1 end as factor
  from helmert_transformation_table
) turn on turn.code = h.code and turn.auth_name = h.auth_name
join geodetic_crs g on g.auth_name = h.source_crs_auth_name and g.code = h.source_crs_code
join geodetic_datum d on d.auth_name = g.datum_auth_name and d.code = g.datum_code
join usage u on u.object_table_name = 'helmert_transformation' and u.object_auth_name = h.auth_name and u.object_code = h.code
join extent e on e.auth_name = u.extent_auth_name and e.code = u.extent_code
where h.auth_name = 'EPSG' and h.deprecated = 0 and h.rate_tx is null and h.accuracy is not null
  and g.type = 'geographic 2D'
  and h.target_crs_code in (4326, 4258) and h.method_code in (9603, 9606, 9607)
  and h.translation_uom_code = 9001
  and coalesce(h.rotation_uom_code, 9104) in (9104, 9109, 9101, 1031, 9113)
  and coalesce(h.scale_difference_uom_code, 9202) in (9202, 1028, 9201)
order by g.code, h.code, h.target_crs_code desc;

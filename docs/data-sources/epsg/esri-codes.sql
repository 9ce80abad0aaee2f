-- ESRI's own numbers for systems that have an EPSG code, as PROJ 9.1.1 carries them (ArcGIS Pro 3.0, 9 July 2022):
-- sqlite3 -header -csv proj.db < esri-codes.sql > esri-codes.csv
select p.code as esri, min(cast(a.code as integer)) as epsg
from projected_crs p
join alias_name a on a.alt_name = p.name and a.table_name = 'projected_crs' and a.source = 'ESRI' and a.auth_name = 'EPSG'
where p.auth_name = 'ESRI'
group by p.code
order by cast(p.code as integer);

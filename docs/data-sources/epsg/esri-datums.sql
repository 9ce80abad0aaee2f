-- ESRI's names of datums beside the EPSG dataset's, as PROJ 9.1.1 carries them (ArcGIS Pro 3.0, 9 July 2022):
-- sqlite3 -header -csv proj.db < esri-datums.sql > esri-datums.csv
select distinct a.alt_name as esri, replace(d.name, ' ', '_') as datum
from alias_name a join geodetic_datum d on d.auth_name = a.auth_name and d.code = a.code
where a.table_name = 'geodetic_datum' and a.source = 'ESRI' and a.auth_name = 'EPSG'
order by 1;

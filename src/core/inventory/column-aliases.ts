import type { Field } from "../model/column-map.ts";
import type { Layer } from "../model/terms.ts";

type Aliases = { readonly [L in Layer]: { readonly [F in Field<L>]?: string } };

/**
 * Names that columns have in inventories and maps, best first, compared without case, blanks and marks and after a unit at the end was
 * taken off. From memory of open city data and of OpenStreetMap's tags; a field's own name always comes first and is not repeated here.
 */
export const COLUMN_ALIASES: Aliases = {
  trees: {
    id: "treeid siteid assetid uniqueid inventoryid treenumber treeno treenum facilityid globalid objectid fid gid osmid",
    species:
      "taxa taxon botanicalname botanical scientificname scientific latinname speciesbotanical genusspecies sppbot treespecies speciesname spp speciescode sppcode spcode speciesdesc treetype",
    genus: "genusname treegenus",
    common_name: "commonname common speciescommon sppcom name comname",
    form: "treeform leaftype treetype lifeform",
    dbh: "dbhcm diameter trunkdiameter stemdiameter diameterbreastheight treediameter diam trunkdiam dbhtotal diameteratbreastheight dbhcurrent",
    girth: "circumference trunkcircumference stemcircumference girthatbreastheight gbh cbh trunkgirth stemgirth",
    height: "theight treeheight heighttotal totalheight treeht ht htm heightm",
    crown_base:
      "heightlivebase livecrownbase crownbaseheight heighttocrownbase crownbaseht baseheight crnbase canopybase heighttolivecrown",
    crown_radius: "canopyradius radius",
    crown_spread:
      "spread crowndiameter canopyspread crownwidth crowndia canopywidth canopydiameter diametercrown avgcdia crownspreadm",
    crown_width_1: "crownwidth1 crownwidthns crownns canopyns crownwidtha cdiapar",
    crown_width_2: "crownwidth2 crownwidthew crownew canopyew crownwidthb cdiaperp",
    radius_n: "radiusn crownradiusn crownn",
    radius_e: "radiuse crownradiuse crowne",
    radius_s: "radiuss crownradiuss crowns",
    radius_w: "radiusw crownradiusw crownw",
    planted: "planteddate plantdate dateplanted plantingdate plantyear yearplanted plantedon startdate",
    caliper_at_planting: "caliper plantingcaliper caliperatplanting",
    last_pruned: "lastpruned pruneddate datepruned lastprunedate lasttrim lasttrimmed prunedate",
    last_dose: "lastdose dose",
    condition: "cond health treecondition conditionrating healthcondition treestatus status",
    alive: "livetree isalive livedead aliveordead alivedead",
    defects: "defect observations treedefects",
    stems: "stemcount numstems trunks trunkcount numberofstems",
    ground_z: "groundz elevation ele groundelevation",
    headroom_over_road: "headroom clearanceoverroad streetclearance roadclearance",
    street: "streetname onstreet onstr stname addrstreet",
    address: "fulladdress siteaddress addr streetaddress",
    side: "streetside sideofstreet",
    owner: "ownership ownedby jurisdiction",
    protected: "heritage isprotected protectedtree significant landmark",
  },
  buildings: {
    id: "bldguid buildingid bldgid bin globalid objectid fid osmid",
    name: "buildingname bldgname",
    height: "bldgheight buildingheight heightroof roofheight maxheight bldght hgt measuredheight",
    levels: "buildinglevels storeys stories floors numfloors maxfloors numstories",
  },
  roads: {
    id: "roadid segmentid streetid roadsegid globalid objectid fid osmid",
    name: "roadname streetname fullname fullstreet stname street",
    class: "highway rdclass roadclass functionalclass funcclass roadtype streetclass fclass lshardtype",
    speed: "maxspeed speedlimit postedspeed speedlim spd",
    lanes: "numlanes lanecount nlanes",
    width: "roadwidth streetwidth pavementwidth surfacewidth curbtocurb",
    oneway: "onewaydir isoneway",
    parking: "parkinglane onstreetparking",
    surface: "surfacetype surfacemat pavement",
    bus: "busroute transit",
    layer: "zlevel level",
  },
  paths: {
    id: "pathid globalid objectid fid osmid",
    name: "pathname trailname",
    class: "highway pathtype type roadtype lshardtype pathclass facilitytype",
    width: "pathwidth sidewalkwidth surfacewidth",
    surface: "surfacetype surfacemat",
    layer: "zlevel level",
  },
  signs: {
    id: "signid globalid objectid fid",
    kind: "signtype type trafficsign highway mutcd mutcdcode description",
    facing: "direction bearing azimuth orientation",
    height: "signheight mountingheight",
  },
  signals: {
    id: "signalid globalid objectid fid",
    kind: "signaltype type highway",
    facing: "direction bearing azimuth orientation",
    height: "signalheight mountingheight",
  },
  conductors: {
    id: "conductorid lineid globalid objectid fid osmid",
    circuit: "circuitid feeder feederid circuitname",
    span: "spanid",
    voltage: "kv nominalvoltage operatingvoltage linevoltage volts",
    attachment_height_1: "attachmentheight1 height1 fromheight attachment1",
    attachment_height_2: "attachmentheight2 height2 toheight attachment2",
    sag: "midspansag",
    sag_temperature: "sagtemperature sagtemp stringingtemperature",
    tension: "stringingtension horizontaltension",
    weight: "wireweight unitweight weightperlength",
    conductor: "conductortype conductorsize wiretype wiresize",
    insulator_length: "insulatorlength stringlength",
    insulation: "covering covered",
    ground_z_1: "groundz1 groundelevation1 fromelevation",
    ground_z_2: "groundz2 groundelevation2 toelevation",
    cables: "numberofconductors phasecount",
    location: "placement overheadunderground",
  },
};

// Header words in English, German, French, Spanish and Dutch, in the plain form of plain_words():
// lower case, no accents ("hohe" for "Höhe", and "hoehe" as people type it).
#include <algorithm>
#include <initializer_list>
#include <span>
#include <unordered_map>
#include <vector>

#include "engine/base/text.hpp"
#include "io/import_headings.hpp"

namespace rootstead::io {
namespace {

constexpr Heading kShared[] = {
    {Field::id,
     "id|fid|ogc fid|objectid|object id|uid|gid|guid|uuid|identifier|unique id|asset id|survey id|"
     "point id|point|kennung|objekt id|identifiant|identificador|identificatie"},
    {Field::easting,
     "easting|eastings|east|e|x|x coord|xcoord|x coordinate|coord x|pos x|point x|utm e|utm x|"
     "rechtswert|ostwert|rw|x koordinate|ost|coordonnee x|coord x|est|este|coordenada x|"
     "x coordinaat|xcoordinaat|rd x|oost"},
    {Field::northing,
     "northing|northings|north|n|y|y coord|ycoord|y coordinate|coord y|pos y|point y|utm n|utm y|"
     "hochwert|nordwert|hw|y koordinate|nord|coordonnee y|norte|coordenada y|y coordinaat|"
     "ycoordinaat|rd y|noord"},
    {Field::longitude,
     "lon|long|lng|longitude|gps lon|gps long|gps longitude|wgs84 lon|lon wgs84|longitude wgs84|"
     "decimal longitude|langengrad|laengengrad|longitud|lengtegraad|geo lon"},
    {Field::latitude,
     "lat|latitude|gps lat|gps latitude|wgs84 lat|lat wgs84|latitude wgs84|decimal latitude|"
     "breitengrad|latitud|breedtegraad|geo lat"},
    {Field::lat_lon,
     "lat lon|latlon|lat long|latlong|lat lng|latitude longitude|lat and lon|gps|gps coordinates|"
     "gps position|geo point 2d|geo point|geopoint|coordinates|coords|koordinaten|coordonnees|"
     "coordonnees gps|coordenadas|coordenadas gps|coordinaten"},
    {Field::lon_lat, "lon lat|lonlat|long lat|longlat|lng lat|longitude latitude"},
    {Field::wkt, "wkt|geometry|geom|the geom|wkt geom|geometry wkt|geometrie|geometria"},
    {Field::notes,
     "notes|note|comment|comments|remark|remarks|observation|observations|bemerkung|bemerkungen|"
     "anmerkung|anmerkungen|remarque|remarques|commentaire|commentaires|observacion|observaciones|"
     "notas|comentarios|opmerking|opmerkingen"},
};

constexpr Heading kTrees[] = {
    {Field::tag,
     "tag|tag no|tag nr|tag number|tag id|no|nr|number|num|label|ref|reference|nummer|lfd nr|"
     "baumnr|baumnummer|plakette|plakettennummer|numero|numero d arbre|n arbre|etiquette|"
     "numero de arbol|n arbol|etiqueta|placa|boomnr|boomnummer|boomplaatje"},
    {Field::botanical_name,
     "botanical|botanical name|scientific|scientific name|latin|latin name|species|species name|"
     "taxon|taxon name|botanischer name|wissenschaftlicher name|lateinischer name|baumart|art|"
     "nom scientifique|nom latin|nom botanique|espece|essence|nombre cientifico|nombre botanico|"
     "especie|botanische naam|wetenschappelijke naam|latijnse naam|boomsoort|soort"},
    {Field::genus, "genus|gattung|genre|genero|geslacht"},
    {Field::species, "species epithet|specific epithet|epithet"},
    {Field::cultivar, "cultivar|cultivar name|variety|sorte|variete|variedad|cv"},
    {Field::common_name,
     "common|common name|vernacular|vernacular name|english name|deutscher name|"
     "deutsche bezeichnung|volkstumlicher name|nom commun|nom vernaculaire|nom francais|"
     "nombre comun|nombre vulgar|nederlandse naam|gewone naam"},
    {Field::form,
     "form|growth form|growth habit|habit|type|wuchsform|wuchstyp|baumtyp|forme|type d arbre|"
     "forma de crecimiento|tipo|groeivorm|boomtype"},
    {Field::stem_diameter,
     "dbh|d b h|diameter|dia|diam|stem diameter|stem dia|stem diam|trunk diameter|trunk dia|"
     "trunk diam|diameter at breast height|breast height diameter|dbh diameter|stem|bhd|"
     "brusthohendurchmesser|brusthoehendurchmesser|stammdurchmesser|durchmesser|stamm durchmesser|"
     "diametre|diametre tronc|diametre du tronc|dhp|d130|diametro|diametro tronco|"
     "diametro del tronco|diametro de tronco|dap|stamdiameter|stam diameter|diameter stam|"
     "stamdoorsnede"},
    {Field::stem_girth,
     "girth|gbh|cbh|circumference|circ|stem girth|trunk girth|stem circumference|"
     "trunk circumference|girth at breast height|perimeter|umfang|stammumfang|stamm umfang|stu|"
     "brusthohenumfang|brusthoehenumfang|circonference|circonference tronc|"
     "circonference du tronc|tour de tronc|circunferencia|circunferencia tronco|perimetro|"
     "perimetro tronco|perimetro del tronco|omtrek|stamomtrek"},
    {Field::stem_count,
     "stems|stem count|stem no|no of stems|nr of stems|number of stems|num stems|n stems|"
     "trunk count|trunks|number of trunks|stammzahl|anzahl stamme|anzahl staemme|stamme|staemme|"
     "nombre de troncs|nb troncs|troncs|numero de troncos|troncos|aantal stammen|stammen"},
    {Field::measured_at,
     "measuring height|measured at|measurement height|height of measurement|dbh height|"
     "diameter height|messhohe|messhoehe|hauteur de mesure|altura de medicion|altura de medida|"
     "meethoogte"},
    {Field::basal_diameter,
     "basal diameter|basal dia|base diameter|diameter at base|root flare diameter|dab|drf|drc|"
     "diameter above root buttress|wurzelanlaufdurchmesser|wurzelhalsdurchmesser|diametre base|"
     "diametre a la base|diametre au collet|diametro basal|diametro base|diametro en la base|"
     "voetdiameter|basale diameter"},
    {Field::height,
     "height|ht|total height|hohe|hoehe|baumhohe|baumhoehe|wuchshohe|gesamthohe|hauteur|"
     "hauteur totale|hauteur de l arbre|altura|altura total|altura del arbol|hoogte|boomhoogte"},
    {Field::crown_radius,
     "crown radius|canopy radius|mean crown radius|kronenradius|rayon couronne|"
     "rayon de couronne|rayon de la couronne|rayon houppier|radio de copa|radio copa|kroonstraal"},
    {Field::crown_diameter,
     "crown diameter|crown dia|crown diam|crown spread|crown width|canopy diameter|canopy spread|"
     "canopy width|spread|dripline diameter|crown width 1|crown diameter 1|spread 1|"
     "kronendurchmesser|kronenbreite|krone durchmesser|diametre couronne|diametre de couronne|"
     "diametre de la couronne|diametre houppier|largeur couronne|envergure|diametro copa|"
     "diametro de copa|diametro de la copa|ancho de copa|kroondiameter|kroonbreedte"},
    {Field::crown_diameter_2, "crown width 2|crown diameter 2|spread 2|canopy width 2"},
    {Field::crown_north,
     "crown n|crown north|crown radius n|crown radius north|crown spread n|crown spread north|"
     "canopy n|canopy north|spread n|spread north|radius n|kronenradius n|kronenradius nord|"
     "krone n|krone nord|rayon n|rayon nord|couronne n|couronne nord|copa n|copa norte|radio n|"
     "radio norte|kroon n|kroon noord|kroonstraal n"},
    {Field::crown_east,
     "crown e|crown east|crown radius e|crown radius east|crown spread e|crown spread east|"
     "canopy e|canopy east|spread e|spread east|radius e|kronenradius o|kronenradius ost|krone o|"
     "krone ost|rayon e|rayon est|couronne e|couronne est|copa e|copa este|radio e|radio este|"
     "kroon o|kroon oost|kroonstraal o"},
    {Field::crown_south,
     "crown s|crown south|crown radius s|crown radius south|crown spread s|crown spread south|"
     "canopy s|canopy south|spread s|spread south|radius s|kronenradius s|kronenradius sud|"
     "krone s|krone sud|rayon s|rayon sud|couronne s|couronne sud|copa s|copa sur|radio s|"
     "radio sur|kroon z|kroon zuid|kroonstraal z"},
    {Field::crown_west,
     "crown w|crown west|crown radius w|crown radius west|crown spread w|crown spread west|"
     "canopy w|canopy west|spread w|spread west|radius w|kronenradius w|kronenradius west|krone w|"
     "krone west|rayon o|rayon ouest|couronne o|couronne ouest|copa o|copa oeste|radio o|"
     "radio oeste|kroon w|kroon west|kroonstraal w"},
    {Field::crown_base_height,
     "crown base height|crown base|canopy base height|crown clearance|canopy clearance|"
     "lowest branch|height of lowest branch|kronenansatz|kronenansatzhohe|kronenansatzhoehe|"
     "hauteur sous couronne|hauteur base couronne|altura base copa|altura de la base de la copa|"
     "kroonaanzet|takvrije hoogte"},
    {Field::columnar, "columnar|fastigiate|saulenform|saeulenform|fastigie|columnar form|zuilvorm"},
    {Field::condition,
     "condition|health|vitality|vigour|vigor|physiological condition|health condition|zustand|"
     "vitalitat|vitalitaet|gesundheit|etat|etat sanitaire|vitalite|estado|estado sanitario|"
     "condicion|vitalidad|conditie|toestand|vitaliteit|live|alive|live or dead"},
    {Field::stage,
     "life stage|stage|age class|maturity|development stage|altersklasse|altersstufe|"
     "alterungsphase|entwicklungsphase|stade|stade de developpement|classe d age|etapa|"
     "clase de edad|fase vital|levensfase|leeftijdsklasse"},
    {Field::lean,
     "lean|lean angle|inclination|neigung|schragstand|schraegstand|inclinaison|inclinacion|"
     "scheefstand"},
    {Field::lean_towards,
     "lean direction|lean azimuth|lean towards|leans towards|neigungsrichtung|"
     "direction inclinaison|direccion inclinacion|richting scheefstand"},
    {Field::flare,
     "flare|root flare|flare state|root collar|wurzelanlauf|wurzelanlaufe|collet|cuello|"
     "cuello de raiz|wortelaanzet|wortelhals"},
    {Field::flare_buried_by,
     "buried by|flare buried by|flare depth|depth of flare|burial depth|uberfullung|"
     "profondeur du collet|profundidad del cuello|diepte wortelhals"},
    {Field::position_source,
     "position source|positioned by|position method|location source|survey method|lagequelle|"
     "source position|source de la position|fuente de posicion|positiebron"},
    {Field::position_error,
     "position error|position accuracy|accuracy|horizontal accuracy|gps accuracy|hrms|"
     "location error|lagegenauigkeit|genauigkeit|precision|precision position|precision gps|"
     "precision de posicion|nauwkeurigheid"},
    {Field::ownership,
     "owner|ownership|eigentumer|eigentuemer|eigentum|proprietaire|propriete|propietario|"
     "propiedad|eigenaar|eigendom"},
    {Field::protection,
     "protection|protected|protection status|tpo|preservation order|schutz|schutzstatus|"
     "geschutzt|protege|statut de protection|proteccion|protegido|bescherming|beschermd"},
    {Field::category,
     "category|cat|retention category|quality category|retention|grade|kategorie|categorie|"
     "categoria"},
    {Field::history,
     "history|growth history|origin history|came from|planting history|herkunft|provenance|"
     "procedencia|herkomst"},
    {Field::intent,
     "intent|intention|disposition|keep or remove|retain or remove|proposed "
     "action|verbleib|devenir|"
     "destino|bestemming"},
    {Field::transplant,
     "transplant|transplanting|to be transplanted|transplant yes no|relocate|to be moved|"
     "verpflanzen|umpflanzen|a transplanter|transplanter|trasplantar|trasplante|verplanten"},
    {Field::clear_trunk,
     "clear trunk|clear trunk height|palm clear trunk|clear trunk of palm|stipe|hauteur de stipe|"
     "altura de estipite|stamlengte palm|stammlange palme"},
    {Field::flare_signs,
     "flare signs|signs at base|base signs|signs at the base|signs of buried flare|"
     "anzeichen am stammfuss|signes au collet|signos en el cuello|tekenen aan de stamvoet"},
    {Field::taper,
     "taper|taper readings|trunk taper|stem taper|trunk diameters near ground|"
     "durchmesser am stammfuss|defilement|conicidad|verjonging"},
    {Field::flare_found_depth,
     "flare found at|flare found depth|found flare depth|depth of flare found|flare found"},
    {Field::first_main_root,
     "first main root|first main root depth|depth of first main root|first root|first root depth|"
     "erste hauptwurzel|premiere racine|primera raiz|eerste hoofdwortel"},
    {Field::girdled_share, "girdled|girdled share|share girdled|girdled part|girdling"},
    {Field::excavation_radius,
     "excavation radius|excavated radius|dug radius|radius excavated|collar excavation radius"},
    {Field::flare_date,
     "flare date|flare seen on|collar date|flare uncovered on|collar uncovered on|excavated on"},
    {Field::flare_seen_by, "flare seen by|collar seen by|flare uncovered by|collar uncovered by"},
};

constexpr Heading kWorks[] = {
    {Field::name,
     "name|title|label|work|work name|bezeichnung|nom|nombre|naam|ref|reference|designation"},
    {Field::kind,
     "kind|type|work type|work kind|type of work|barrier type|barrier kind|art|massnahme|"
     "art der massnahme|nature|nature des travaux|tipo|tipo de obra|soort|soort werk|werk"},
    {Field::state, "state|status|zustand|stand|etat|statut|estado|toestand"},
    {Field::method,
     "method|dig method|excavation method|digging method|grabverfahren|bauweise|methode|metodo|"
     "graafmethode"},
    {Field::width,
     "width|trench width|breite|grabenbreite|largeur|largeur tranchee|ancho|anchura|"
     "ancho de zanja|breedte|sleufbreedte"},
    {Field::depth,
     "depth|trench depth|excavation depth|dig depth|foundation depth|tiefe|grabentiefe|"
     "profondeur|profundidad|diepte|sleufdiepte"},
    {Field::working_room,
     "working room|working width|working space|arbeitsraum|espace de travail|"
     "espacio de trabajo|werkruimte|werkstrook"},
    {Field::bore_diameter,
     "bore diameter|pipe diameter|bore size|bohrdurchmesser|diametre forage|"
     "diametro de perforacion|boordiameter"},
    {Field::spacing,
     "spacing|post spacing|pfostenabstand|abstand|espacement|separacion|tussenafstand"},
    {Field::permeable,
     "permeable|pervious|porous|durchlassig|wasserdurchlassig|permeabilite|"
     "waterdoorlatend|doorlatend"},
    {Field::date,
     "date|work date|date of work|date done|done on|datum|ausgefuhrt am|date des travaux|fecha|"
     "fecha de obra|uitgevoerd op"},
    {Field::seen,
     "seen|damage|damage seen|observed damage|what was seen|schaden|gesehener schaden|degats|"
     "degats vus|danos|danos vistos|schade"},
    {Field::wet,
     "wet|wet ground|done wet|wet soil|nass|nasser boden|sol mouille|mojado|natte grond"},
    {Field::vehicle,
     "vehicle|machine|vehicle name|equipment|fahrzeug|maschine|vehicule|engin|vehiculo|maquina|"
     "voertuig"},
    {Field::gross_mass,
     "gross mass|gross weight|mass|weight|vehicle mass|vehicle weight|gesamtmasse|gesamtgewicht|"
     "masse totale|poids total|masa total|peso total|totale massa|totaalgewicht"},
    {Field::wheel_load,
     "wheel load|maximum wheel load|max wheel load|heaviest wheel|track load|radlast|"
     "charge par roue|carga por rueda|wiellast"},
    {Field::contact_pressure,
     "contact pressure|ground pressure|bearing pressure|kontaktdruck|bodendruck|pression au sol|"
     "pression de contact|presion de contacto|bodemdruk"},
    {Field::contact_width,
     "contact width|tyre width|tire width|track width|reifenbreite|kettenbreite|largeur de pneu|"
     "ancho de rueda|bandbreedte"},
    {Field::contact_length,
     "contact length|track length|aufstandslange|longueur de contact|longitud de contacto|"
     "contactlengte"},
    {Field::passes,
     "passes|number of passes|trips|number of trips|uberfahrten|passages|nombre de "
     "passages|pasadas|"
     "overgangen|aantal overgangen"},
    {Field::cover,
     "cover|ground cover|ground protection|mats|bodenschutz|protection du sol|"
     "proteccion del suelo|bodembescherming"},
    {Field::chips,
     "chips|chips thickness|chip thickness|wood chips|wood chips thickness|hackschnitzel|copeaux|"
     "astillas|houtsnippers"},
    {Field::plate_width,
     "plate width|mat width|board width|plattenbreite|largeur de plaque|ancho de placa|"
     "plaatbreedte"},
    {Field::plate_length,
     "plate length|mat length|board length|plattenlange|longueur de plaque|largo de placa|"
     "plaatlengte"},
    {Field::fill_texture,
     "fill texture|texture of fill|fill soil|fill material|schuttmaterial|texture du remblai|"
     "textura del relleno|textuur ophoging"},
};

// Units of numbers that are no lengths, as they stand at the end of a header.
constexpr std::string_view kNumberUnits[] = {" kg",  " t",       " lb",  " lbs", " k n",
                                             " kn",  " k pa",    " kpa", " psi", " bar",
                                             " pct", " percent", " vol"};

std::string without_number_unit(const std::string& words) {
  for (const std::string_view unit : kNumberUnits) {
    if (words.ends_with(unit)) return words.substr(0, words.size() - unit.size());
  }
  return words;
}

using Index = std::unordered_map<std::string, Field>;

// The first field that claims a word has it.
Index index_of(std::initializer_list<std::span<const Heading>> lists) {
  Index index;
  for (const auto& list : lists) {
    for (const Heading& heading : list) {
      for (const std::string& words : split(heading.words, '|'))
        index.emplace(words, heading.field);
    }
  }
  return index;
}

const Index& index_for(Topic topic) {
  static const Index kOfTrees = index_of({kTrees, kShared});
  static const Index kOfWorks = index_of({kWorks, kShared});
  static const Index kOfEvidence = index_of({evidence_headings(), kShared});
  static const Index kOfSoil = index_of({soil_headings(), kShared});
  switch (topic) {
    case Topic::trees:
      return kOfTrees;
    case Topic::works:
      return kOfWorks;
    case Topic::evidence:
      return kOfEvidence;
    case Topic::soil:
      return kOfSoil;
  }
  return kOfTrees;
}

// "tree height", "Baum Nr", "id arbre": the word for tree says nothing in a table of trees.
std::string without_tree_word(const std::string& words) {
  std::vector<std::string> kept = split(words, ' ');
  std::erase_if(kept, [](const std::string& word) {
    return word == "tree" || word == "trees" || word == "baum" || word == "arbre" ||
           word == "arbol" || word == "boom" || word == "the";
  });
  return joined(kept, " ");
}

}  // namespace

std::optional<Field> field_for_words(const std::string& words, Topic topic) {
  const Index& index = index_for(topic);
  if (const auto found = index.find(words); found != index.end()) return found->second;
  const auto number = index.find(without_number_unit(words));
  if (number != index.end() && measure_of(number->second) == Measure::number) return number->second;
  // Beside an opening "tree" is the tree its roots belong to, and no noise.
  if (topic == Topic::evidence) return std::nullopt;
  const auto found = index.find(without_tree_word(words));
  return found != index.end() ? std::optional(found->second) : std::nullopt;
}

}  // namespace rootstead::io

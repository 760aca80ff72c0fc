// Header words of trial pits and soil logs; see io/import_headings.hpp.
#include "io/import_headings.hpp"

namespace rootstead::io {
namespace {

constexpr Heading kEvidence[] = {
    {Field::id,
     "pit|pit id|pit no|pit nr|pit number|trial pit|trial pit no|trial hole|hole|hole no|opening|"
     "opening id|opening no|trench|trench no|test pit|no|nr|number|ref|reference|schurf|schurf nr|"
     "schurfgrube|suchschacht|suchschacht nr|suchgraben|aufgrabung|fosse|fosse no|sondage|"
     "sondage no|numero|cata|calicata|numero de cata|proefkuil|proefgat|proefsleuf|nummer"},
    {Field::kind,
     "kind|type|pit type|opening type|kind of opening|art|art der aufgrabung|nature|"
     "type de sondage|tipo|tipo de cata|soort|soort proefkuil"},
    {Field::tree,
     "tree|tree id|tree no|tree nr|tree number|tree tag|tag|of tree|belongs to|baum|baum nr|baumnr|"
     "baumnummer|arbre|no arbre|numero d arbre|n arbre|arbol|numero de arbol|n arbol|boom|boomnr|"
     "boomnummer"},
    {Field::width,
     "width|pit width|trench width|opening width|side|pit side|size|breite|schurfbreite|"
     "grabenbreite|largeur|ancho|anchura|breedte|sleufbreedte"},
    {Field::depth,
     "depth|pit depth|depth dug|dug depth|dug to|depth of pit|trench depth|excavated depth|"
     "depth of opening|tiefe|schurftiefe|aufgegraben bis|grabentiefe|profondeur|"
     "profondeur fouillee|profondeur du sondage|profundidad|profundidad de cata|diepte|"
     "gegraven diepte|diepte kuil"},
    {Field::counted_from,
     "counted from|counted from diameter|roots counted from|recorded from|smallest root|"
     "minimum root diameter|min root diameter|threshold|gezahlt ab|erfasst ab|ab durchmesser|"
     "compte a partir de|diametre minimal|contado desde|diametro minimo|geteld vanaf"},
    {Field::root_diameter,
     "root diameter|root dia|root diam|root size|roots|diameter|dia|diam|wurzeldurchmesser|wurzeln|"
     "durchmesser|diametre racine|diametre de racine|diametre de la racine|racines|diametre|"
     "diametro raiz|diametro de raiz|diametro de la raiz|raices|diametro|worteldiameter|wortels"},
    {Field::root_depth,
     "root depth|depth of root|depth to root|found at depth|wurzeltiefe|tiefe der wurzel|"
     "profondeur racine|profondeur de la racine|profundidad raiz|profundidad de la raiz|"
     "worteldiepte|diepte wortel"},
    {Field::root_x,
     "root x|root easting|root e|x root|x of root|root lon|root longitude|wurzel x|racine x|raiz x|"
     "wortel x"},
    {Field::root_y,
     "root y|root northing|root n|y root|y of root|root lat|root latitude|wurzel y|racine y|raiz y|"
     "wortel y"},
    {Field::alive,
     "alive|live|living|live or dead|alive or dead|root alive|lebend|lebt|lebend oder tot|vivante|"
     "vivant|racine vivante|viva|vivo|raiz viva|levend|leeft"},
    {Field::date,
     "date|date dug|dug on|seen on|date of visit|datum|aufgegraben am|date de fouille|fecha|"
     "fecha de cata"},
    {Field::seen_by,
     "seen by|by|recorded by|observer|surveyor|inspector|dug by|gesehen von|aufgenommen von|"
     "bearbeiter|vu par|releve par|observateur|visto por|observador|gezien door|waarnemer"},
};

constexpr Heading kSoil[] = {
    {Field::top,
     "top|top depth|from|from depth|depth from|upper depth|upper limit|oberkante|von|"
     "obergrenze|de|profondeur de|limite superieure|desde|limite superior|van|bovenkant"},
    {Field::bottom,
     "bottom|bottom depth|to|to depth|depth to|depth|lower depth|lower limit|base|underside|layer|"
     "unterkante|bis|untergrenze|tiefe|a|profondeur a|profondeur|limite inferieure|hasta|"
     "profundidad|limite inferior|tot|onderkant|diepte"},
    {Field::texture,
     "texture|soil texture|soil|soil type|class|texture class|bodenart|korngrosse|substrat|"
     "texture du sol|textura|textura del suelo|textuur|grondsoort"},
    {Field::bulk_density,
     "bulk density|dry bulk density|dry density|density|bulk density g cm3|bulk density kg m3|"
     "bulk density mg m3|bulk density t m3|dry bulk density g cm3|dry bulk density kg m3|bd|"
     "bulk density g|bulk density kg|dry bulk density g|dry bulk density kg|bd g cm3|density g "
     "cm3|density kg m3|lagerungsdichte|trockenrohdichte|"
     "trockenrohdichte g cm3|rohdichte|densite apparente|masse volumique apparente|"
     "densidad aparente|densidad|bulkdichtheid|droge bulkdichtheid|dichtheid"},
    {Field::air_filled,
     "air filled porosity|air filled|air porosity|air capacity|aeration|air|afp|"
     "air at field capacity|luftkapazitat|luftvolumen|porosite en air|porosite a l air|"
     "capacite en air|porosidad de aire|porosidad de aireacion|luchtgehalte|"
     "luchtgevulde porien"},
    {Field::resistance,
     "resistance|penetration resistance|penetrometer|penetrometer resistance|cone resistance|"
     "soil strength|resistance mpa|resistance k pa|penetration resistance mpa|"
     "penetration resistance k pa|eindringwiderstand|resistance a la penetration|"
     "resistencia|resistencia a la penetracion|indringingsweerstand"},
    {Field::water_table,
     "water table|groundwater|ground water|depth to water|water level|high water table|"
     "grundwasser|grundwasserstand|nappe|nappe phreatique|nivel freatico|capa freatica|"
     "grondwater|grondwaterstand"},
    {Field::drainage, "drainage|drainage class|entwasserung|wasserabfuhrung|drenaje|ontwatering"},
    {Field::rooting_depth,
     "rooting depth|depth to rock|depth to pan|rock at|durchwurzelbare tiefe|"
     "profondeur d enracinement|profundidad de enraizamiento|bewortelbare diepte"},
    {Field::sand, "sand|sand share|sand content|sandanteil|sable|arena|zand|zandgehalte"},
    {Field::silt, "silt|silt share|silt content|schluff|schluffanteil|limon|limo|siltgehalte"},
    {Field::clay, "clay|clay share|clay content|ton|tonanteil|argile|arcilla|klei|lutum"},
    {Field::organic_matter,
     "organic matter|organic matter content|om|som|organics|humus|humusgehalt|matiere organique|"
     "materia organica|organische stof"},
    {Field::water,
     "water|water content|volumetric water content|water share|wassergehalt|teneur en eau|"
     "contenido de agua|watergehalte"},
    {Field::compacted, "compacted|compaction|verdichtet|compacte|tasse|compactado|verdicht"},
};

}  // namespace

std::span<const Heading> evidence_headings() {
  return kEvidence;
}

std::span<const Heading> soil_headings() {
  return kSoil;
}

}  // namespace rootstead::io

#include "io/stored.hpp"

#include <array>
#include <bit>
#include <cmath>
#include <cstring>

#include "engine/base/text.hpp"
#include "io/ogr_shapes.hpp"

namespace rootstead::io {
namespace {

// The blob's own header before the well-known binary: 'G' 'P', version, flags, srs, envelope.
constexpr std::size_t kPlainHeader = 8;
constexpr unsigned char kLittleEndian = 1;
constexpr unsigned char kEnvelopeXY = 1 << 1;
constexpr unsigned char kEmptyFlag = 1 << 4;

template <class Number>
void append(std::string& bytes, Number number) {
  static_assert(std::endian::native == std::endian::little, "blobs are written little-endian");
  char raw[sizeof number];
  std::memcpy(raw, &number, sizeof number);
  bytes.append(raw, sizeof number);
}

std::optional<std::string> blob_of(const OGRGeometry& geometry, const Frame& frame) {
  OGREnvelope box;
  geometry.getEnvelope(&box);
  const bool point = wkbFlatten(geometry.getGeometryType()) == wkbPoint;
  std::array<double, 4> envelope{box.MinX, box.MaxX, box.MinY, box.MaxY};
  if (geometry.IsEmpty()) envelope = {NAN, NAN, NAN, NAN};
  for (const double edge : envelope) {
    if (!geometry.IsEmpty() && !std::isfinite(edge)) return std::nullopt;
  }
  std::string bytes("GP\0", 3);
  int flags = kLittleEndian;
  if (!point && !geometry.IsEmpty()) flags |= kEnvelopeXY;
  if (geometry.IsEmpty()) flags |= kEmptyFlag;
  bytes.push_back(static_cast<char>(flags));
  append(bytes, static_cast<std::int32_t>(frame.srs_id));
  if (flags & kEnvelopeXY) {
    for (const double edge : envelope) append(bytes, edge);
  }
  const auto header = bytes.size();
  const auto size = static_cast<std::size_t>(geometry.WkbSize());
  bytes.resize(header + size);
  geometry.exportToWkb(wkbNDR, reinterpret_cast<unsigned char*>(bytes.data() + header),
                       wkbVariantIso);
  return bytes;
}

// Sizes of the envelope by its code in the flags: none, xy, xyz, xym, xyzm.
std::optional<std::size_t> header_size(std::string_view blob) {
  constexpr std::array<std::size_t, 5> kEnvelopes{0, 32, 48, 48, 64};
  if (blob.size() < kPlainHeader || blob.substr(0, 2) != "GP") return std::nullopt;
  const auto code = (static_cast<unsigned char>(blob[3]) >> 1) & 7U;
  if (code >= kEnvelopes.size()) return std::nullopt;
  return kPlainHeader + kEnvelopes[code];
}

}  // namespace

std::optional<std::string> geometry_blob(const Shape& shape, const Frame& frame) {
  const Geometry geometry = to_ogr(shape, frame.metres_per_unit);
  return geometry ? blob_of(*geometry, frame) : std::nullopt;
}

std::optional<std::string> geometry_blob(const MultiPolygon& area, const Frame& frame) {
  return blob_of(*to_ogr(area, frame.metres_per_unit), frame);
}

std::optional<std::string> geometry_blob(const Point& point, const Frame& frame) {
  if (!std::isfinite(point.x) || !std::isfinite(point.y)) return std::nullopt;
  return blob_of(*to_ogr(point, frame.metres_per_unit), frame);
}

std::optional<Shape> shape_of_blob(std::string_view blob, const Frame& frame) {
  const auto header = header_size(blob);
  if (!header || *header > blob.size()) return std::nullopt;
  OGRGeometry* read = nullptr;
  const std::string_view body = blob.substr(*header);
  if (OGRGeometryFactory::createFromWkb(body.data(), nullptr, &read, body.size()) != OGRERR_NONE) {
    return std::nullopt;
  }
  return shape_from(*Geometry(read), frame.metres_per_unit);
}

std::string_view wkb_of_blob(std::string_view blob) {
  const auto header = header_size(blob);
  return header && *header <= blob.size() ? blob.substr(*header) : std::string_view();
}

std::optional<std::string> whole_blob(std::string_view blob, const Frame& frame) {
  OGRGeometry* read = nullptr;
  const std::string_view body = wkb_of_blob(blob);
  if (OGRGeometryFactory::createFromWkb(body.data(), nullptr, &read, body.size()) != OGRERR_NONE)
    return std::nullopt;
  return blob_of(*Geometry(read), frame);
}

void Putter::put_blob(const std::optional<std::string>& blob) {
  if (blob) return to_.put_geometry(*blob);
  to_.put_null();
  to_.object({Code::invalid_geometry, "", "a coordinate to be stored is not finite",
              "correct it at its source"});
}

void Putter::put(const std::optional<EnteredLength>& v) {
  if (v) return put(*v);
  to_.put_null();
  to_.put_null();
}

void Putter::put(const std::optional<Lean>& v) {
  put(v ? std::optional(v->from_vertical.degrees()) : std::nullopt);
  put(v ? std::optional(v->towards.degrees()) : std::nullopt);
}

void Putter::put(const std::optional<Position>& v) {
  put(v ? std::optional(v->at) : std::nullopt);
  v ? put(v->source) : to_.put_null();
  put(v ? v->error : std::nullopt);
}

void Putter::put(const Shape& v) {
  v.empty() ? to_.put_null() : put_blob(geometry_blob(v, frame_));
}

void Putter::put(const MultiPolygon& v) {
  v.empty() ? to_.put_null() : put_blob(geometry_blob(v, frame_));
}

void Putter::put(const std::optional<Point>& v) {
  v ? put_blob(geometry_blob(*v, frame_)) : to_.put_null();
}

void Putter::put(const Point& v) {
  put_blob(geometry_blob(v, frame_));
}

void Taker::not_understood(const std::string& text) {
  from_.object(database_.broken("the value \"" + text + "\" in column " + column_ + " of table " +
                                table_ + " is not understood"));
}

void Taker::take(std::optional<double>& v) {
  v = from_.null() ? std::nullopt : std::optional(from_.number());
  if (!v) from_.skip();
}

void Taker::take(std::optional<int>& v) {
  std::optional<double> number;
  take(number);
  v.reset();
  if (!number) return;
  constexpr double kLargest = 1e9;
  const bool whole = std::abs(*number) < kLargest && *number == std::floor(*number);
  whole ? void(v = static_cast<int>(*number)) : not_understood(shortest_number(*number));
}

void Taker::take(EnteredLength& v) {
  v.value = from_.number();
  const std::string unit = from_.text();
  const auto known = length_unit_from(unit);
  known ? void(v.unit = *known) : not_understood(unit);
}

void Taker::take(std::optional<EnteredLength>& v) {
  if (from_.null()) {
    from_.skip();
    from_.skip();
    v.reset();
    return;
  }
  take(v.emplace());
}

void Taker::take(std::optional<Lean>& v) {
  std::optional<double> from_vertical, towards;
  take(from_vertical);
  take(towards);
  v.reset();
  if (from_vertical) v = Lean{Angle::degrees(*from_vertical), Angle::degrees(towards.value_or(0))};
}

void Taker::take(std::optional<Position>& v) {
  Shape place;
  take(place);
  Position position;
  take(position.source);
  take(position.error);
  v.reset();
  if (place.points.empty()) return;
  position.at = place.points.front();
  v = position;
}

void Taker::take(Shape& v) {
  v = {};
  const auto blob = from_.geometry();
  if (!blob) return;
  auto shape = shape_of_blob(*blob, frame_);
  shape ? void(v = std::move(*shape))
        : not_understood("geometry of " + std::to_string(blob->size()) + " bytes");
}

void Taker::take(MultiPolygon& v) {
  Shape shape;
  take(shape);
  v = std::move(shape.areas);
}

void Taker::take(std::optional<Point>& v) {
  Shape shape;
  take(shape);
  v = shape.points.empty() ? std::nullopt : std::optional(shape.points.front());
}

void Taker::take(Point& v) {
  std::optional<Point> place;
  take(place);
  place ? void(v = *place) : not_understood("");
}

}  // namespace rootstead::io

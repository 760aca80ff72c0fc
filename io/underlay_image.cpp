#include "io/underlay_image.hpp"

#include <cpl_string.h>
#include <cpl_vsi.h>
#include <gdal_alg.h>
#include <gdal_priv.h>
#include <gdal_utils.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <limits>
#include <memory>
#include <optional>
#include <vector>

#include "engine/base/text.hpp"
#include "io/import_problems.hpp"
#include "io/spatial_reference.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;

constexpr std::int64_t kMostSourcePixels = 1'000'000'000;  // our assumption: minutes of reading
constexpr int kOpaque = 255;

// A file of GDAL's in memory, gone with it.
class MemoryName {
 public:
  MemoryName() {
    static std::atomic<int> count = 0;
    name_ = "/vsimem/rootstead-underlay-" + std::to_string(++count) + ".png";
  }
  ~MemoryName() { VSIUnlink(name_.c_str()); }
  MemoryName(const MemoryName&) = delete;
  MemoryName& operator=(const MemoryName&) = delete;
  const char* c_str() const { return name_.c_str(); }

 private:
  std::string name_;
};

struct DestroyTransformer {
  void operator()(void* transformer) const { GDALDestroyGenImgProjTransformer(transformer); }
};

class ImageReading {
 public:
  ImageReading(const fs::path& source, const ReferenceSystem& project)
      : source_(source), project_(project), name_(source.filename().string()) {}

  Result<PlacedImage> read() {
    GDALAllRegister();
    ROOTSTEAD_CHECK(open());
    ROOTSTEAD_CHECK(find_systems());
    ROOTSTEAD_CHECK(choose_bands());
    ROOTSTEAD_CHECK(find_place());
    ROOTSTEAD_CHECK(warp());
    ROOTSTEAD_CHECK(paint());
    PlacedImage image;
    image.system_named = system_named_;
    ROOTSTEAD_TRY(image.png, png());
    const double unit = metres_per(project_.file_unit);
    image.place = {place_.min_x * unit, place_.min_y * unit, place_.max_x * unit,
                   place_.max_y * unit};
    return image;
  }

 private:
  Error broken(const std::string& what) const {
    const std::string said = on_one_line(quiet_.last_message());
    return {Code::format_broken, name_, what + (said.empty() ? "" : " (" + said + ")"),
            "export it again as GeoTIFF"};
  }

  Outcome open() {
    constexpr const char* kDrivers[] = {"GTiff", nullptr};
    data_.reset(GDALDataset::Open(source_.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY, kDrivers,
                                  nullptr, nullptr));
    if (!data_ || data_->GetRasterCount() < 1) return broken("it cannot be read as a GeoTIFF");
    std::array<double, 6> frame{};
    if (data_->GetGeoTransform(frame.data()) != CE_None && data_->GetGCPCount() == 0)
      return Error{Code::invalid_geometry, name_, "the image does not say where it lies",
                   "export it as GeoTIFF with its place on the grid"};
    const std::int64_t pixels =
        std::int64_t{data_->GetRasterXSize()} * std::int64_t{data_->GetRasterYSize()};
    if (pixels <= kMostSourcePixels) return Nothing{};
    return Error{Code::value_invalid, name_, "the image is too large",
                 "cut it to the site in a GIS first"};
  }

  static std::string wkt_of(const OGRSpatialReference& system) {
    char* text = nullptr;
    system.exportToWkt(&text);
    std::string wkt = text == nullptr ? "" : text;
    CPLFree(text);
    return wkt;
  }

  Outcome find_systems() {
    const auto project = spatial_reference(project_.code);
    if (!project)
      return Error{Code::crs_unsuitable, name_, "the project's system is not known to the reader",
                   "choose another system for the project"};
    to_ = wkt_of(*project);
    const OGRSpatialReference* own = data_->GetSpatialRef();
    if (own == nullptr) own = data_->GetGCPSpatialRef();
    system_named_ = own != nullptr && own->IsEmpty() == 0;
    from_ = system_named_ ? wkt_of(*own) : to_;
    return Nothing{};
  }

  // Colours of a palette become bands; of many bands the first three are taken, and the one that
  // says what is clear.
  Outcome choose_bands() {
    const int bands = data_->GetRasterCount();
    GDALRasterBand* first = data_->GetRasterBand(1);
    CPLStringList options;
    options.AddString("-of");
    options.AddString("VRT");
    if (first->GetColorTable() != nullptr) {
      options.AddString("-expand");
      options.AddString("rgba");
      colours_ = 3;
      has_alpha_ = true;
    } else {
      const auto is_alpha = [&](int band) {
        return data_->GetRasterBand(band)->GetColorInterpretation() == GCI_AlphaBand;
      };
      std::vector<int> taken;
      int alpha = 0;
      for (int band = 1; band <= bands; ++band) {
        if (is_alpha(band))
          alpha = band;
        else
          taken.push_back(band);
      }
      if (taken.empty()) return broken("it has no colours");
      taken.resize(taken.size() >= 3 ? 3 : 1);
      colours_ = static_cast<int>(taken.size());
      has_alpha_ = alpha > 0;
      if (has_alpha_) taken.push_back(alpha);
      for (const int band : taken) {
        options.AddString("-b");
        options.AddString(std::to_string(band).c_str());
      }
    }
    const std::unique_ptr<GDALTranslateOptions, void (*)(GDALTranslateOptions*)> how(
        GDALTranslateOptionsNew(options.List(), nullptr), GDALTranslateOptionsFree);
    chosen_.reset(GDALDataset::FromHandle(
        GDALTranslate("", GDALDataset::ToHandle(data_.get()), how.get(), nullptr)));
    if (!chosen_) return broken("its colours cannot be read");
    return Nothing{};
  }

  Outcome find_place() {
    CPLStringList options;
    options.SetNameValue("SRC_SRS", from_.c_str());
    options.SetNameValue("DST_SRS", to_.c_str());
    const GDALDatasetH from = GDALDataset::ToHandle(chosen_.get());
    const std::unique_ptr<void, DestroyTransformer> way(
        GDALCreateGenImgProjTransformer2(from, nullptr, options.List()));
    std::array<double, 6> frame{}, box{};
    const bool found =
        way && GDALSuggestedWarpOutput2(from, GDALGenImgProjTransform, way.get(), frame.data(),
                                        &columns_, &rows_, box.data(), 0) == CE_None;
    place_ = {frame[0], frame[3] + frame[5] * rows_, frame[0] + frame[1] * columns_, frame[3]};
    const bool fine = found && columns_ > 0 && rows_ > 0 &&
                      std::isfinite(place_.min_x + place_.min_y + place_.max_x + place_.max_y) &&
                      place_.max_x > place_.min_x && place_.max_y > place_.min_y;
    if (!fine)
      return Error{Code::crs_unsuitable, name_,
                   "the image cannot be brought to the project's system, " + project_.code,
                   "export it in the system of the project"};
    const double coarser = std::max({1.0, static_cast<double>(columns_) / kMostImagePixels,
                                     static_cast<double>(rows_) / kMostImagePixels});
    columns_ = std::clamp(static_cast<int>(std::lround(columns_ / coarser)), 1, kMostImagePixels);
    rows_ = std::clamp(static_cast<int>(std::lround(rows_ / coarser)), 1, kMostImagePixels);
    return Nothing{};
  }

  Outcome warp() {
    CPLStringList options;
    const auto add = [&options](std::initializer_list<std::string> words) {
      for (const std::string& word : words) options.AddString(word.c_str());
    };
    constexpr int kDigits = 17;
    const auto exact = [](double value) {
      std::array<char, 40> text{};
      std::snprintf(text.data(), text.size(), "%.*g", kDigits, value);
      return std::string(text.data());
    };
    add({"-of", "MEM", "-s_srs", from_, "-t_srs", to_, "-r", "bilinear", "-novshift"});
    add({"-te", exact(place_.min_x), exact(place_.min_y), exact(place_.max_x),
         exact(place_.max_y)});
    add({"-ts", std::to_string(columns_), std::to_string(rows_)});
    if (!has_alpha_) add({"-dstalpha"});
    const std::unique_ptr<GDALWarpAppOptions, void (*)(GDALWarpAppOptions*)> how(
        GDALWarpAppOptionsNew(options.List(), nullptr), GDALWarpAppOptionsFree);
    GDALDatasetH from = GDALDataset::ToHandle(chosen_.get());
    int wrong = 0;
    warped_.reset(GDALDataset::FromHandle(GDALWarp("", nullptr, 1, &from, how.get(), &wrong)));
    if (!warped_ || warped_->GetRasterCount() != colours_ + 1)
      return broken("it cannot be turned to the project's grid");
    return Nothing{};
  }

  Result<std::vector<float>> pixels_of(int band) {
    std::vector<float> pixels(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
    if (warped_->GetRasterBand(band)->RasterIO(GF_Read, 0, 0, columns_, rows_, pixels.data(),
                                               columns_, rows_, GDT_Float32, 0, 0,
                                               nullptr) != CE_None)
      return broken("a part of it cannot be read");
    return pixels;
  }

  Outcome paint() {
    GDALDriver* memory = GetGDALDriverManager()->GetDriverByName("MEM");
    if (memory == nullptr) return broken("the reader of images is not whole");
    painted_.reset(memory->Create("", columns_, rows_, colours_ + 1, GDT_Byte, nullptr));
    if (!painted_) return broken("there is no room for the image");
    const bool bytes = warped_->GetRasterBand(1)->GetRasterDataType() == GDT_Byte;
    ROOTSTEAD_TRY(const std::vector<float> clear, pixels_of(colours_ + 1));
    float least = 0, greatest = kOpaque;
    if (!bytes) ROOTSTEAD_CHECK(find_range(clear, least, greatest));
    for (int band = 1; band <= colours_; ++band) {
      ROOTSTEAD_TRY(const std::vector<float> pixels, pixels_of(band));
      const float span = greatest > least ? greatest - least : 1;
      ROOTSTEAD_CHECK(put(band, pixels, [&](float value) {
        return std::isfinite(value) ? (value - least) / span * kOpaque : 0.0F;
      }));
    }
    const auto opaque = [bytes](float value) { return bytes ? value : value > 0 ? 255.0F : 0.0F; };
    ROOTSTEAD_CHECK(put(colours_ + 1, clear, opaque));
    constexpr std::array kColours{GCI_RedBand, GCI_GreenBand, GCI_BlueBand};
    for (int band = 1; band <= colours_; ++band)
      painted_->GetRasterBand(band)->SetColorInterpretation(
          colours_ == 1 ? GCI_GrayIndex : kColours[static_cast<std::size_t>(band - 1)]);
    painted_->GetRasterBand(colours_ + 1)->SetColorInterpretation(GCI_AlphaBand);
    return Nothing{};
  }

  Outcome find_range(const std::vector<float>& clear, float& least, float& greatest) {
    least = std::numeric_limits<float>::max(), greatest = std::numeric_limits<float>::lowest();
    for (int band = 1; band <= colours_; ++band) {
      ROOTSTEAD_TRY(const std::vector<float> pixels, pixels_of(band));
      for (std::size_t i = 0; i < pixels.size(); ++i) {
        if (!(clear[i] > 0) || !std::isfinite(pixels[i])) continue;
        least = std::min(least, pixels[i]);
        greatest = std::max(greatest, pixels[i]);
      }
    }
    return Nothing{};
  }

  template <class Tone>
  Outcome put(int band, const std::vector<float>& pixels, Tone tone) {
    std::vector<std::uint8_t> bytes;
    bytes.reserve(pixels.size());
    for (const float value : pixels)
      bytes.push_back(static_cast<std::uint8_t>(std::clamp(tone(value), 0.0F, 255.0F) + 0.5F));
    if (painted_->GetRasterBand(band)->RasterIO(GF_Write, 0, 0, columns_, rows_, bytes.data(),
                                                columns_, rows_, GDT_Byte, 0, 0,
                                                nullptr) != CE_None)
      return broken("there is no room for the image");
    return Nothing{};
  }

  Result<std::string> png() {
    const MemoryName name;
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("PNG");
    if (driver == nullptr) return broken("the reader of images is not whole");
    const GDALDatasetUniquePtr written(
        driver->CreateCopy(name.c_str(), painted_.get(), FALSE, nullptr, nullptr, nullptr));
    if (!written) return broken("the image cannot be written");
    written->FlushCache();
    vsi_l_offset length = 0;
    const GByte* bytes = VSIGetMemFileBuffer(name.c_str(), &length, FALSE);
    if (bytes == nullptr || length == 0) return broken("the image cannot be written");
    return std::string(bytes, bytes + length);
  }

  const QuietGdal quiet_;
  const fs::path& source_;
  const ReferenceSystem& project_;
  std::string name_, from_, to_;
  GDALDatasetUniquePtr data_, chosen_, warped_, painted_;
  int colours_ = 1;
  bool system_named_ = false;
  bool has_alpha_ = false;
  int columns_ = 0, rows_ = 0;
  Box place_;  // in the unit of the project's system
};

}  // namespace

Result<PlacedImage> read_underlay_image(const fs::path& source, const ReferenceSystem& project) {
  return ImageReading(source, project).read();
}

}  // namespace rootstead::io

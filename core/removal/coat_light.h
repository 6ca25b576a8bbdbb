// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/coat_layer.h"

#include <span>
#include <vector>

namespace bw {

/// How light divides among the layers of a coat and the metal beneath. Every layer is a Kubelka-Munk film over what lies beneath it: a
/// thick one takes up its absorptance over its optical depth, a thin or pale one lets much of the light through and gets some of it back.
/// What leaves the coat upwards is lost.
class CoatLight {
 public:
  /// Of the light that arrives at a layer's face.
  struct Film {
    double taken = 0;        // by the layer
    double density_1_m = 0;  // taken per depth at its face
    double passed = 0;       // arrives at the face of what lies beneath, bounces included

    double length_m() const { return taken / density_1_m; }  // over which what is taken lies, at the face's density
  };

  CoatLight(std::span<const CoatLayer> coat, double metalAbsorptance);

  /// A layer of which so much is left, over the whole layers beneath.
  Film film(std::size_t layer, double left_m, bool scorched = false) const;
  const Film& whole(std::size_t layer) const { return m_whole[layer]; }
  double metalAbsorptance() const { return m_metalAbsorptance; }

 private:
  std::vector<KubelkaMunk> m_fresh;
  std::vector<KubelkaMunk> m_scorched;
  std::vector<double> m_beneath;  // reflectance of what lies beneath each layer
  std::vector<Film> m_whole;
  double m_metalAbsorptance;
};

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/coat_light.h"

namespace bw {

CoatLight::CoatLight(std::span<const CoatLayer> coat, double metalAbsorptance)
    : m_beneath(coat.size()), m_whole(coat.size()), m_metalAbsorptance(metalAbsorptance) {
  for (const CoatLayer& layer : coat) {
    m_fresh.push_back(layer.film());
    m_scorched.push_back(layer.film(true));
  }
  double reflectance = 1 - metalAbsorptance;
  for (std::size_t i = coat.size(); i-- > 0;) {
    m_beneath[i] = reflectance;
    m_whole[i] = film(i, coat[i].thickness_m);
    reflectance = filmOver(m_fresh[i], coat[i].thickness_m, reflectance).reflectance;
  }
}

CoatLight::Film CoatLight::film(std::size_t layer, double left_m, bool scorched) const {
  const KubelkaMunk& film = scorched ? m_scorched[layer] : m_fresh[layer];
  const FilmLight light = filmOver(film, left_m, m_beneath[layer]);
  const double taken = 1 - light.reflectance - light.transmittance * (1 - m_beneath[layer]);
  return {taken, film.absorption_1_m * (1 + light.reflectance), light.transmittance};
}

}  // namespace bw

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/frame_boxes.h"
#include "core/heat/hand_tour.h"
#include "core/heat/heat_piece.h"
#include "core/scan/path.h"

namespace bw {

/// From how near the light is looked at: where the beam is in its line, or lines smeared along themselves, or whole frames smeared evenly.
/// Means over ten milliseconds need not know the first, maps of a part not the second.
enum class Smear { Beam, Lines, Frames };

/// Around a middle, on the part, the hand at rest: no light of a stretch is nearer to it or further away.
struct Ring {
  Point middle;
  double least_m, most_m;
};

/// Where and when a temperature is asked for.
struct HeatQuery {
  Point place;                  // (across, along), metres, as the tour has it
  double time_s = 0;            // of the work
  double youngest_s = 0;        // energy younger than this is left out: a pulse period gives "an instant before the pulse"
  double patchVariance_m2 = 0;  // per axis, of the patch over which is averaged; 0 a point
  Smear finest = Smear::Beam;
  double depth_m = 0;    // below the front face, for riseAtDepth_K_W alone
  double window_s = 0;   // up to the time, over which is averaged; 0 a moment
  bool throughMean = false;  // the mean through the thickness alone: how heat crosses it need not be followed
  double spreading = 1;  // of heat, over the plate's own diffusivity: for metal that is warmer than the plate's properties hold for
  FrameShift frames = {};  // of the strokes
};

/// Near heat: what scan lines, frames and swaths build up locally, per watt of the beam's mean power while lit, from energy younger than
/// the oldest age given. Half-space and plate alike: a half-space is a plate so thick that no image is near.
///
/// The past is taken piece by piece; heat_piece.h tells what one gives. The further back, the coarser; all errors relative to what the
/// piece would give right under it:
/// - light of one piece differs in age by no more than a tenth, nor does its variance s^2 grow by more: the age is rounded to its middle
/// or,
///   of a way, to its mean at the place, error at most (0.1^2/24) x 3.75 = 0.16 %, 3.75 the greatest second derivative of
///   t^-3/2 exp(-r^2/4 alpha t) in ln t. The singular 1/sqrt(t) is integrated exactly;
/// - where the beam runs straight and evenly it is one way. A curve is cut so short that its chord is within s/6, laid through the curve's
/// mean, and its middle within
///   0.5 %; what is shorter than 0.7 s is taken as a spot, and a row of such ripples by 2 exp(-2 pi^2/0.49), below 1e-17;
/// - a whole circle on the part, gone round within a twentieth of its age, is one piece: its parts are so much older or younger at most,
///   all directions together nearly not;
/// - pulses further apart than 1.4 s are taken one by one, nearer ones in whole numbers to a piece;
/// - lines are smeared along themselves once they are ten intervals old and s has reached their spacing, frames once ten periods old,
///   whole lines and frames only: when within its line or frame the light came is then forgotten, at most 1.5 x interval / (4 age),
///   3.75 % of the youngest so smeared and less of all older (1.5 the greatest first derivative in ln t); a raster's there and back cancels
///   most of it;
/// - what is smeared is taken in pairs of pieces at Gauss and Legendre's nodes, over growth by three tenths and ways of 1.2 s: the error is
///   of fourth order, 5.06/4320 x 0.3^4 = 1e-5;
/// - a frame that is not made of rows becomes some fifty boxes once their third and fourth moments and slant matter less than 1 %, and any
///   frame one box once its own do;
/// - light that goes over the part's edge is lost; its way there is rounded to pieces, which near such an edge may come to 2 % more.
/// But for the last bound_K_W() adds these up for a query, counting pairs as if each were alone; sums over every pulse stay within it and
/// 0.8 % of the rise more, which the discreteness of pulses and curved paths take (tests). So a query costs as many pieces as the decades
/// of age it looks back, whatever the pulses.
class PathHeat {
 public:
  PathHeat(const Frame& frame, double travelAngle_rad, const Emission& emission, double spotRadius_m, const Plate& plate, HandTour tour,
           double oldest_s);

  /// Rise per watt of the beam, the metal's share of it as the tour's strokes say.
  FacesRise rise_K_W(const HeatQuery& query) const;

  /// Mean through the thickness of what frames smeared evenly give, newest heat included, per watt: what a part's cells have of near heat.
  double evenRise_K_W(const HeatQuery& query) const;

  /// At the query's depth below the front face.
  double riseAtDepth_K_W(const HeatQuery& query) const;

  /// Adds to a field the means over its cells and through the thickness, frames smeared evenly; [row * across + column] as in PartField.
  void addMeans_K_W(double time_s, int across, int along, const Point& cell_m, std::vector<double>& rise) const;

  /// No more than this can coarsening have changed either face's rise.
  double bound_K_W(const HeatQuery& query) const;

  /// How many pieces a query takes.
  int pieces(const HeatQuery& query) const;

  const Plate& plate() const { return m_plate; }
  const HandTour& tour() const { return m_tour; }
  const FrameBoxes& boxes() const { return m_boxes; }
  double oldest_s() const { return m_oldest; }
  double spotRadius_m() const { return m_radius; }

 private:
  struct Span;
  template <class Visit>
  void eachPiece(const HeatQuery& query, Visit visit) const;
  template <class Visit>
  void beamPieces(const HeatQuery& query, const Span& span, Visit visit) const;
  template <class Visit>
  void rowPieces(const HeatQuery& query, const Span& span, Visit visit) const;
  template <class Visit>
  void framePieces(const HeatQuery& query, const Span& span, Visit visit) const;
  double wayBack_s(const HeatQuery& query, const Stretch& stretch, double inStretch_s, double age_s, double shortest_s,
                   double longest_s) const;
  double farBack_s(const HeatQuery& query, const TourStroke& stroke, const Stretch& stretch, double inStretch_s, double age_s) const;
  double ringBack_s(const HeatQuery& query, const TourStroke& stroke, const Stretch& stretch, double inStretch_s, double age_s) const;
  double oldestPiece_s(const HeatQuery& query, double age_s) const;
  double longestPiece_s(const HeatQuery& query, double age_s, double speed_m_s, double length, double growth) const;
  double rowsFrom(const HeatQuery& query, const TourStroke& stroke, double age_s) const;
  double framesFrom(const HeatQuery& query, const TourStroke& stroke, double age_s) const;
  double spread_m2(const HeatQuery& query, double age_s) const;
  PieceKernel kernelOf(const HeatQuery& query) const;

  const Frame& m_frame;
  Travel m_turned;
  double m_period;  // between pulses; 0 for a continuous beam
  double m_radius;
  Plate m_plate;
  HandTour m_tour;
  std::vector<Ring> m_rings;  // of the frame's stretches
  FrameBoxes m_boxes;
  double m_oldest;
  double m_speed;       // fastest the head moves
  double m_fromRows_s;  // ages from which lines, and whole frames, are smeared
  double m_fromFrames_s;
  double m_oneBoxFrom_m2;  // variance from which a frame is one box
};

}  // namespace bw

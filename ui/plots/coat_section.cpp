// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/coat_section.h"

#include "ui/plots/coat_canvas.h"
#include "ui/style/format.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QSlider>
#include <QVBoxLayout>
#include <algorithm>

namespace bw {

namespace {

double bareShare(const RemovalResult& removal, int pass) {
  double share = 0, all = 0;
  for (const PlaceHistory& place : removal.places) {
    all += place.share;
    if (place.passesToClear && *place.passesToClear <= pass) share += place.share;
  }
  return all > 0 ? share / all : 0;
}

int mostPasses(const Assessment* assessment) {
  std::size_t points = 1;
  if (assessment != nullptr) {
    for (const PlaceHistory& place : assessment->removal.places) points = std::max(points, place.depth_m.size());
  }
  return static_cast<int>(points) - 1;
}

}  // namespace

CoatSection::CoatSection(QWidget* parent)
    : QWidget(parent), m_canvas(new CoatCanvas(this)), m_stepper(new QSlider(Qt::Horizontal, this)), m_passes(new QLabel(this)) {
  m_canvas->setObjectName(QStringLiteral("coatCanvas"));
  m_stepper->setObjectName(QStringLiteral("passStepper"));
  m_stepper->setAccessibleName(tr("Passes shown in the cross-section"));
  m_stepper->setToolTip(tr("Step through the passes and see where the coat wears away"));
  m_stepper->setPageStep(1);
  QFont small = font();
  small.setPixelSize(space::leastFont);
  m_passes->setFont(small);
  m_passes->setMinimumWidth(m_passes->fontMetrics().horizontalAdvance(tr("after 10 passes: 100 % bare")) + 2);
  auto* row = new QHBoxLayout;
  row->addWidget(m_stepper, 1);
  row->addWidget(m_passes);
  auto* layout = new QVBoxLayout(this);
  layout->setContentsMargins(0, 0, 0, 0);
  layout->setSpacing(space::small);
  layout->addWidget(m_canvas, 1);
  layout->addLayout(row);
  connect(m_stepper, &QSlider::valueChanged, this, &CoatSection::showPass);
  connect(m_canvas, &CoatCanvas::thicknessDragged, this, &CoatSection::thicknessDragged);
  connect(m_canvas, &CoatCanvas::thicknessDragFinished, this, &CoatSection::thicknessDragFinished);
  connect(m_canvas, &CoatCanvas::layerSelected, this, &CoatSection::layerSelected);
  setAssessment(nullptr);
}

void CoatSection::setCoat(const Project& project) { m_canvas->setCoat(project); }

void CoatSection::setAssessment(std::shared_ptr<const Assessment> assessment) {
  m_assessment = assessment;
  m_canvas->setAssessment(std::move(assessment));
  const int most = mostPasses(m_assessment.get());
  m_stepper->setRange(0, most);
  m_stepper->setEnabled(most > 0);
  showPass(m_stepper->value());
}

void CoatSection::setStale(bool stale) { m_canvas->setStale(stale); }

void CoatSection::showPass(int pass) {
  m_canvas->setPass(pass);
  if (!m_stepper->isEnabled()) return m_passes->setText(tr("removal not computed"));
  if (pass == 0) return m_passes->setText(tr("before the first pass"));
  const QString bare = format::percent(bareShare(m_assessment->removal, pass));
  m_passes->setText(pass == 1 ? tr("after 1 pass: %1 bare").arg(bare) : tr("after %1 passes: %2 bare").arg(pass).arg(bare));
}

}  // namespace bw

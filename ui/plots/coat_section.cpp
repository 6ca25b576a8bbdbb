// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/coat_section.h"

#include "ui/plots/coat_canvas.h"
#include "ui/plots/pass_stepper.h"
#include "ui/plots/remaining.h"
#include "ui/style/format.h"
#include "ui/style/theme.h"

#include <QLabel>
#include <QVBoxLayout>

namespace bw {

CoatSection::CoatSection(QWidget* parent)
    : QWidget(parent), m_canvas(new CoatCanvas(this)), m_passes(new PassStepper(this)), m_words(new QLabel(this)) {
  m_canvas->setObjectName(QStringLiteral("coatCanvas"));
  m_words->setObjectName(QStringLiteral("coatLeft"));
  QFont small = font();
  small.setPixelSize(space::leastFont);
  m_words->setFont(small);
  m_words->setWordWrap(true);
  m_words->setAlignment(Qt::AlignLeft | Qt::AlignTop);
  m_words->setTextInteractionFlags(Qt::TextSelectableByMouse);
  m_words->setMinimumHeight(2 * m_words->fontMetrics().lineSpacing());  // the form below stays where it is
  auto* layout = new QVBoxLayout(this);
  layout->setContentsMargins(0, 0, 0, 0);
  layout->setSpacing(space::small);
  layout->addWidget(m_canvas, 1);
  layout->addWidget(m_passes);
  layout->addWidget(m_words);
  connect(m_passes, &PassStepper::passChanged, this, [this](int pass) {
    showPass();
    emit passChanged(pass);
  });
  connect(m_canvas, &CoatCanvas::passStepped, this, [this](int by) { stepper()->setValue(stepper()->value() + by); });
  connect(m_canvas, &CoatCanvas::thicknessDragged, this, &CoatSection::thicknessDragged);
  connect(m_canvas, &CoatCanvas::thicknessDragFinished, this, &CoatSection::thicknessDragFinished);
  connect(m_canvas, &CoatCanvas::layerSelected, this, &CoatSection::layerSelected);
  setAssessment(nullptr);
}

QSlider* CoatSection::stepper() const { return m_passes->slider(); }

QString CoatSection::words() const { return m_words->text(); }

void CoatSection::setCoat(const Project& project) { m_canvas->setCoat(project); }

void CoatSection::setAssessment(std::shared_ptr<const Assessment> assessment) {
  m_assessment = assessment;
  m_canvas->setAssessment(std::move(assessment));
  m_passes->setMost(passesShown(m_assessment.get()));
  showPass();
}

void CoatSection::setStale(bool stale) { m_canvas->setStale(stale); }

void CoatSection::setPlace(std::optional<PickedPlace> place) {
  m_place = place;
  showPass();
}

void CoatSection::setPass(int pass) {
  m_passes->setPass(pass);
  showPass();
}

std::optional<double> CoatSection::depth() const {
  if (m_assessment == nullptr) return std::nullopt;
  return m_place ? depthAt(*m_assessment, *m_place, m_passes->pass()) : meanDepth(m_assessment->removal, m_passes->pass());
}

void CoatSection::showPass() {
  const int pass = m_passes->pass();
  m_canvas->setPass(pass);
  m_canvas->setCut(m_place ? depth() : std::nullopt);
  if (m_passes->most() == 0) {
    m_passes->setWords({});
    return m_words->setText(tr("What the passes take off is not computed."));
  }
  m_passes->setWords(passWords(pass));
  if (pass == 0) return m_words->setText(tr("Nothing is off yet."));
  const QString left = leftWords(m_assessment->removal.layers, depth().value_or(0));
  if (m_place) return m_words->setText(tr("Picked place: %1.").arg(left));
  const QString clear = format::percent(clearShare(m_assessment->removal, pass));
  m_words->setText(tr("%1 clear. In the mean: %2.").arg(clear, left));
}

}  // namespace bw

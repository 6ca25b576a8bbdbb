// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/answer_line.h"

namespace bw {

AnswerLine::AnswerLine(QWidget* parent) : QWidget(parent) { setMinimumHeight(44); }
void AnswerLine::setProject(const Project&) {}
void AnswerLine::setAssessment(std::shared_ptr<const Assessment>) {}
void AnswerLine::setStale(bool) {}
void AnswerLine::setProblem(const QString&) {}

}  // namespace bw

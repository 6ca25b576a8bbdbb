// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/asker.h"

#include <QCoreApplication>
#include <QFileDialog>
#include <QInputDialog>
#include <QMessageBox>
#include <QPushButton>

namespace bw {
namespace {

struct AskerWords {
  Q_DECLARE_TR_FUNCTIONS(AskerWords)
};

QString projectFilter() { return AskerWords::tr("Barewright projects (*.bwright);;All files (*)"); }

}  // namespace

UnsavedAnswer DialogAsker::askUnsaved(const QString& projectName) {
  QMessageBox box(QMessageBox::Warning, AskerWords::tr("Unsaved changes"),
                  AskerWords::tr("“%1” has changes that are not saved.").arg(projectName), QMessageBox::NoButton, m_window);
  box.setInformativeText(AskerWords::tr("Save them, or leave without them?"));
  auto* save = box.addButton(AskerWords::tr("Save"), QMessageBox::AcceptRole);
  auto* discard = box.addButton(AskerWords::tr("Don't save"), QMessageBox::DestructiveRole);
  box.setEscapeButton(box.addButton(QMessageBox::Cancel));
  box.setDefaultButton(save);
  box.exec();
  if (box.clickedButton() == save) return UnsavedAnswer::Save;
  return box.clickedButton() == discard ? UnsavedAnswer::Discard : UnsavedAnswer::Cancel;
}

QString DialogAsker::askOpenPath(const QString& folder) {
  return QFileDialog::getOpenFileName(m_window, AskerWords::tr("Open a project"), folder, projectFilter());
}

QString DialogAsker::askSavePath(const QString& proposal) {
  return QFileDialog::getSaveFileName(m_window, AskerWords::tr("Save the project as"), proposal, projectFilter());
}

QString DialogAsker::askFile(const QString& title, const QString& folder, const QString& filter) {
  return QFileDialog::getOpenFileName(m_window, title, folder, filter);
}

QString DialogAsker::askNewFile(const QString& title, const QString& proposal, const QString& filter, Existing existing) {
  const auto options = existing == Existing::Allowed ? QFileDialog::DontConfirmOverwrite : QFileDialog::Option();
  return QFileDialog::getSaveFileName(m_window, title, proposal, filter, nullptr, options);
}

std::optional<QString> DialogAsker::askText(const QString& title, const QString& label, const QString& proposal) {
  bool accepted = false;
  const QString text = QInputDialog::getText(m_window, title, label, QLineEdit::Normal, proposal, &accepted).trimmed();
  return accepted && !text.isEmpty() ? std::optional(text) : std::nullopt;
}

bool DialogAsker::askYes(const QString& title, const QString& question, const QString& yes, const QString& no) {
  QMessageBox box(QMessageBox::Question, title, question, QMessageBox::NoButton, m_window);
  auto* yesButton = box.addButton(yes, QMessageBox::AcceptRole);
  box.setEscapeButton(box.addButton(no, QMessageBox::RejectRole));
  box.setDefaultButton(yesButton);
  box.exec();
  return box.clickedButton() == yesButton;
}

void DialogAsker::tell(const QString& title, const QString& sentence) {
  QMessageBox(QMessageBox::Warning, title, sentence, QMessageBox::Ok, m_window).exec();
}

}  // namespace bw

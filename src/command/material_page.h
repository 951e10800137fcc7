#ifndef BW_COMMAND_MATERIAL_PAGE_H
#define BW_COMMAND_MATERIAL_PAGE_H

/* Materials on paper: the list by group, and one with all its sources. */

#include "bothways/material.h"
#include "output.h"
#include "settings.h"

/* Chooses materials for the list; `word` is passed through. */
typedef bool material_chosen(const bw_material *material, const char *word);

/* The chosen materials as a table to read, or as --format says. */
bw_status material_list(bw_output *output, const settings *given,
                        const bw_library *library, material_chosen *choose,
                        const char *word, bw_error *err);

/* Every value of one material, with range, basis, evidence and source. */
bw_status material_show(bw_output *output, const settings *given,
                        const bw_material *material, bw_error *err);

#endif

/* The table of forms, and which of them a text is in: the first whose needed
 * columns stand together in one of the lines at its head. */

#include <string.h>
#include <strings.h>

#include "record_form.h"

enum { HEAD_LINES = 200, MOST_LINE = 8192 };

static const bw_form_of_hours *const FORM[] = {
    &bw_form_public, &bw_form_months,    &bw_form_typical, &bw_form_location,
    &bw_form_own,    &bw_form_reference, &bw_form_dutch,   &bw_form_irish,
    &bw_form_french, &bw_form_logger};

enum { FORMS = sizeof FORM / sizeof FORM[0] };

const char *bw_form_title(size_t i)
{
    return i < FORMS ? FORM[i]->title : NULL;
}

static bool named(const bw_form_of_hours *form, const bw_form_column *column,
                  const char *name)
{
    return form->prefixes
               ? strncasecmp(name, column->name, strlen(column->name)) == 0
               : strcmp(name, column->name) == 0;
}

bool bw_form_match(const bw_form_of_hours *form, char *const *field,
                   size_t fields, int at[BW_FORM_KINDS],
                   int column[BW_FORM_KINDS])
{
    for (int k = 0; k < BW_FORM_KINDS; k++)
        at[k] = -1;
    for (size_t c = 0; c < form->columns; c++) {
        const bw_form_column *is = &form->column[c];
        if (form->header != NULL && at[is->is] < 0)
            at[is->is] = is->field - 1;
        for (size_t i = 0; form->header == NULL && i < fields; i++)
            if (at[is->is] < 0 && named(form, is, field[i]))
                at[is->is] = (int)i;
        if (at[is->is] >= 0 && column[is->is] < 0)
            column[is->is] = (int)c;
    }
    for (size_t c = 0; c < form->columns; c++)
        if (form->column[c].needed && at[form->column[c].is] < 0)
            return false;
    return form->header != NULL || at[BW_KEY_A] >= 0 || at[BW_KEY_B] >= 0;
}

static bool fits(const bw_form_of_hours *form, const char *line, char separator)
{
    char copy[MOST_LINE];
    char *field[BW_FORM_FIELDS];
    int at[BW_FORM_KINDS], column[BW_FORM_KINDS];
    size_t fields = 0;
    if (form->header != NULL)
        return strncmp(line, form->header, strlen(form->header)) == 0;
    memcpy(copy, line, strlen(line) + 1);
    for (int k = 0; k < BW_FORM_KINDS; k++)
        column[k] = -1;
    return bw_csv_split_at(copy, separator, field, BW_FORM_FIELDS, &fields) &&
           bw_form_match(form, field, fields, at, column);
}

/* The line without the signs that make it a comment; false: too long. */
static bool copy_line(char out[MOST_LINE], const char *line)
{
    size_t length = strcspn(line, "\n");
    if (length >= MOST_LINE)
        return false;
    size_t skip = strspn(line, "# ");
    skip = skip < length ? skip : length;
    memcpy(out, line + skip, length - skip);
    out[length - skip] = '\0';
    if (length > skip && out[length - skip - 1] == '\r')
        out[length - skip - 1] = '\0';
    return true;
}

const bw_form_of_hours *bw_form_find(long *header_line, char *separator,
                                     const char *text)
{
    for (size_t f = 0; f < FORMS; f++) {
        const char *line = text;
        for (long n = 1; n <= HEAD_LINES && line != NULL; n++) {
            char copy[MOST_LINE];
            if (copy_line(copy, line)) {
                *header_line = n;
                *separator = FORM[f]->separator != '\0'
                                 ? FORM[f]->separator
                                 : bw_csv_separator(copy);
                if (fits(FORM[f], copy, *separator))
                    return FORM[f];
            }
            line = strchr(line, '\n');
            line = line != NULL && line[1] != '\0' ? line + 1 : NULL;
        }
    }
    return NULL;
}

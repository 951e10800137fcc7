/* A case file: lines "key: value", then sections "[name]" (README.md in
 * cases). Whatever it does not know it refuses: a word that is passed over
 * would be a check that is not made. */

#include "case_file.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

bool case_fault(case_report *report, const char *file, long line,
                const char *format, ...)
{
    char message[1200];
    va_list args;
    va_start(args, format);
    vsnprintf(message, sizeof message, format, args);
    va_end(args);
    report->faults++;
    const size_t left = sizeof report->text - report->length;
    const int wrote = snprintf(report->text + report->length, left,
                               "%s:%ld: %s\n", file, line, message);
    if (wrote > 0)
        report->length += (size_t)wrote < left ? (size_t)wrote : left - 1;
    return false;
}

/* Letters to change, add or take out (Levenshtein). */
static size_t distance(const char *a, const char *b)
{
    size_t row[64];
    const size_t n = strlen(b);
    if (n >= COUNT(row))
        return n;
    for (size_t j = 0; j <= n; j++)
        row[j] = j;
    for (size_t i = 0; a[i] != '\0'; i++) {
        size_t before = row[0]++;
        for (size_t j = 1; j <= n; j++) {
            size_t best = before + (a[i] != b[j - 1]);
            before = row[j];
            best = row[j] + 1 < best ? row[j] + 1 : best;
            row[j] = row[j - 1] + 1 < best ? row[j - 1] + 1 : best;
        }
    }
    return row[n];
}

const char *case_near(char *out, size_t size, const char *word,
                      const char *const *words, size_t count)
{
    size_t best = strlen(word) / 2 + 1;
    out[0] = '\0';
    for (size_t i = 0; i < count; i++) {
        const size_t far = distance(word, words[i]);
        if (far >= best)
            continue;
        best = far;
        snprintf(out, size, ", did you mean '%s'?", words[i]);
    }
    return out;
}

static char *trimmed(char *text)
{
    while (isspace((unsigned char)*text))
        text++;
    for (char *end = text + strlen(text);
         end > text && isspace((unsigned char)end[-1]); end--)
        end[-1] = '\0';
    return text;
}

size_t case_cells(char *cell[CASE_CELLS], char *line)
{
    size_t count = 0;
    while (line != NULL && count < CASE_CELLS) {
        char *comma = count + 1 < CASE_CELLS ? strchr(line, ',') : NULL;
        if (comma != NULL)
            *comma = '\0';
        cell[count++] = trimmed(line);
        line = comma != NULL ? comma + 1 : NULL;
    }
    return count;
}

/* The next line, cut off; NULL at the end. */
static char *take_line(char **at)
{
    char *line = *at;
    if (*line == '\0')
        return NULL;
    char *end = strchr(line, '\n');
    *at = end != NULL ? end + 1 : line + strlen(line);
    if (end != NULL)
        *end = '\0';
    return line;
}

char *case_next_line(char **at, long *line)
{
    for (char *text; (text = take_line(at)) != NULL;) {
        ++*line;
        text = trimmed(text);
        if (*text != '\0' && *text != '#')
            return text;
    }
    return NULL;
}

/* ---- the head ---------------------------------------------------------- */

static bool read_key(case_file *file, char *text, long line,
                     case_report *report)
{
    static const char *const keys[] = {"title",
                                       "source",
                                       "mark",
                                       "element",
                                       "section",
                                       "outer-resistance",
                                       "inner-resistance",
                                       "saturated",
                                       "years",
                                       "vapour-permeability"};
    const char **const where[] = {&file->title,
                                  &file->source,
                                  &file->mark,
                                  &file->element,
                                  &file->section,
                                  &file->outer_resistance,
                                  &file->inner_resistance,
                                  &file->saturated,
                                  &file->years,
                                  &file->vapour_permeability};
    char near[80], *colon = strchr(text, ':');
    if (colon == NULL)
        return case_fault(report, file->name, line,
                          "'%s' is neither 'key: value' nor a [section]", text);
    *colon = '\0';
    const char *key = trimmed(text), *value = trimmed(colon + 1);
    for (size_t i = 0; i < COUNT(keys); i++) {
        if (strcmp(key, keys[i]) != 0)
            continue;
        if (*where[i] != NULL)
            return case_fault(report, file->name, line, "%s stands twice", key);
        if (*value == '\0')
            return case_fault(report, file->name, line, "%s is empty", key);
        *where[i] = value;
        return true;
    }
    return case_fault(report, file->name, line, "unknown key '%s'%s", key,
                      case_near(near, sizeof near, key, keys, COUNT(keys)));
}

static bool check_head(const case_file *file, case_report *report)
{
    static const char *const one_to_ten[] = {"1", "2", "3", "4", "5",
                                             "6", "7", "8", "9", "10"};
    static const char *const marks[] = {"seen",
                                        "from memory, high",
                                        "from memory, medium",
                                        "from memory, low",
                                        "derived",
                                        "exact",
                                        "regression value"};
    char near[80];
    if (file->title == NULL || file->source == NULL || file->mark == NULL)
        return case_fault(report, file->name, 1,
                          "title:, source: and mark: are needed at the head");
    bool years = file->years == NULL;
    for (size_t i = 0; i < COUNT(one_to_ten); i++)
        years = years || strcmp(file->years, one_to_ten[i]) == 0;
    if (!years)
        return case_fault(report, file->name, 1, "years: is 1 to 10");
    if (file->vapour_permeability != NULL &&
        strcmp(file->vapour_permeability, "fixed") != 0)
        return case_fault(report, file->name, 1,
                          "vapour-permeability: is 'fixed' or not said");
    for (size_t i = 0; i < COUNT(marks); i++)
        if (strcmp(file->mark, marks[i]) == 0)
            return true;
    return case_fault(
        report, file->name, 1, "unknown mark '%s'%s", file->mark,
        case_near(near, sizeof near, file->mark, marks, COUNT(marks)));
}

/* ---- what is expected -------------------------------------------------- */

/* "gap.openings = 500 mm2/m; gap.thickness = 30 mm", up to the ']'. */
static bool read_edits(case_file *file, case_block *block, char *text,
                       case_report *report)
{
    while (*text != '\0') {
        char *end = strchr(text, ';');
        if (end != NULL)
            *end = '\0';
        char *equals = strchr(text, '=');
        if (equals == NULL || block->edit_count == CASE_EDITS)
            return case_fault(report, file->name, block->line,
                              "changes are PLACE.ATTRIBUTE = VALUE, at most "
                              "%d, with ';' between them",
                              CASE_EDITS);
        *equals = '\0';
        block->edit[block->edit_count++] = (bw_edit){trimmed(text),
                                                     trimmed(equals + 1)};
        text = end != NULL ? end + 1 : equals + 1 + strlen(equals + 1);
    }
    return true;
}

static bool read_row(case_file *file, char *text, long line,
                     case_report *report)
{
    char *cell[CASE_CELLS];
    const size_t count = case_cells(cell, text);
    if (file->row_count == CASE_ROWS)
        return case_fault(report, file->name, line, "more than %d values",
                          CASE_ROWS);
    if (count < 5)
        return case_fault(report, file->name, line,
                          "has %zu cells: quantity, place, when, value and "
                          "tolerance are needed (a cell may be empty)",
                          count);
    case_block *block = &file->block[file->block_count - 1];
    case_row *row = &file->row[file->row_count++];
    *row = (case_row){line,
                      cell[0],
                      cell[1],
                      cell[2],
                      cell[3],
                      cell[4],
                      count > 5 ? cell[5] : ""};
    if (block->row_count++ == 0)
        block->row = row;
    return true;
}

static bool read_expected(case_file *file, case_part part, char *changes,
                          long line, case_report *report)
{
    static const char head[] = "quantity, place, when, value, tolerance";
    if (file->block_count == CASE_BLOCKS)
        return case_fault(report, file->name, line,
                          "more than %d sections [expected]", CASE_BLOCKS);
    case_block *block = &file->block[file->block_count++];
    *block = (case_block){.line = line};
    if (!read_edits(file, block, changes, report))
        return false;
    long at = part.line - 1;
    char *text = case_next_line(&part.text, &at);
    if (text == NULL || strncmp(text, head, sizeof head - 1) != 0)
        return case_fault(report, file->name, text != NULL ? at : line,
                          "[expected] begins with the line '%s'", head);
    while ((text = case_next_line(&part.text, &at)) != NULL)
        if (!read_row(file, text, at, report))
            return false;
    return block->row_count > 0 ||
           case_fault(report, file->name, line,
                      "[expected] has no values: nothing is asserted");
}

/* ---- sections ---------------------------------------------------------- */

static bool put_part(case_file *file, char *name, case_part part, long line,
                     case_report *report)
{
    static const char *const names[] = {"wall", "boundary", "climate", "hours",
                                        "expected"};
    case_part *const where[] = {&file->wall, &file->boundary, &file->climate,
                                &file->hours};
    char near[80], *changes = strchr(name, ':');
    if (changes != NULL)
        *changes++ = '\0';
    if (strcmp(name, "expected") == 0)
        return read_expected(file, part, changes != NULL ? changes : "", line,
                             report);
    for (size_t i = 0; i < COUNT(where) && changes == NULL; i++) {
        if (strcmp(name, names[i]) != 0)
            continue;
        if (where[i]->text != NULL)
            return case_fault(report, file->name, line, "[%s] stands twice",
                              name);
        *where[i] = part;
        return true;
    }
    return case_fault(report, file->name, line, "unknown section [%s]%s", name,
                      case_near(near, sizeof near, name, names, COUNT(names)));
}

/* Where the next line that begins with '[' stands, and the lines before. */
static char *next_section(char *text, long *lines)
{
    for (*lines = 0; *text != '\0' && *text != '['; ++*lines) {
        text += strcspn(text, "\n");
        text += *text != '\0';
    }
    return text;
}

static bool read_sections(case_file *file, char *text, long line,
                          case_report *report)
{
    while (*text == '[') {
        char *name = take_line(&text) + 1, *end = strchr(name, ']');
        if (end == NULL || *trimmed(end + 1) != '\0')
            return case_fault(report, file->name, line, "no ']' at the end");
        *end = '\0';
        long lines;
        char *next = next_section(text, &lines);
        if (*next != '\0')
            next[-1] = '\0'; /* the end of the line before it */
        char *body = next > text || *next == '\0' ? text : text - 1;
        if (!put_part(file, name, (case_part){body, line + 1}, line, report))
            return false;
        line += lines + 1;
        text = next;
    }
    return true;
}

bool case_read(case_file *file, const char *name, char *text,
               case_report *report)
{
    *file = (case_file){.name = name};
    long lines, line = 0;
    char *sections = next_section(text, &lines);
    if (sections > text && *sections == '[')
        sections[-1] = '\0';
    for (char *key;
         sections > text && (key = case_next_line(&text, &line)) != NULL;)
        if (!read_key(file, key, line, report))
            return false;
    if (!check_head(file, report) ||
        !read_sections(file, sections, lines + 1, report))
        return false;
    return file->row_count > 0 ||
           case_fault(report, name, lines,
                      "no [expected]: nothing is asserted");
}

/* The words for the enums of material.h, one table each. */

#include "bothways/material.h"
#include "text.h"

const char *bw_evidence_text(bw_evidence evidence)
{
    static const char *const words[] = {
        [BW_EVIDENCE_ASSUMED] = "assumed",
        [BW_EVIDENCE_TABULATED] = "tabulated",
        [BW_EVIDENCE_DECLARED] = "declared",
        [BW_EVIDENCE_MEASURED] = "measured",
    };
    return BW_WORD(words, evidence, "unknown");
}

const char *bw_evidence_meaning(void)
{
    return "assumed: nobody looked; tabulated: a standard's or the library's "
           "table; declared: a data sheet; measured: on this wall or this "
           "product";
}

const char *bw_basis_text(bw_basis basis)
{
    static const char *const words[] = {
        [BW_BASIS_ESTIMATE] = "estimate",
        [BW_BASIS_DERIVED] = "derived",
        [BW_BASIS_FROM_MEMORY] = "from memory",
        [BW_BASIS_OPENED] = "opened",
        [BW_BASIS_GIVEN] = "given",
    };
    return BW_WORD(words, basis, "unknown");
}

const char *bw_wood_kind_text(bw_wood_kind wood_kind)
{
    static const char *const words[] = {
        [BW_NOT_WOOD] = "not wood",
        [BW_SOLID_WOOD] = "solid wood",
        [BW_WOOD_PANEL] = "wood-based panel",
        [BW_WOOD_WOOL_BOARD] = "wood-wool board",
    };
    return BW_WORD(words, wood_kind, "unknown");
}

const char *bw_mould_class_text(bw_mould_class mould_class)
{
    static const char *const words[] = {
        [BW_MOULD_VERY_SENSITIVE] = "very sensitive",
        [BW_MOULD_SENSITIVE] = "sensitive",
        [BW_MOULD_MEDIUM_RESISTANT] = "medium resistant",
        [BW_MOULD_RESISTANT] = "resistant",
    };
    return BW_WORD(words, mould_class, "unknown");
}

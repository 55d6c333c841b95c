using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>A job to be shortened.</summary>
/// <param name="Name">Its pattern.</param>
/// <param name="Job">Its records, without the end.</param>
/// <param name="Shorter">Fewer records that do the same.</param>
/// <param name="IsMixed">Whether its records stand in no order that shows what they make.</param>
internal sealed record ShortenRecipe(string Name, IReadOnlyList<Record> Job, IReadOnlyList<Record> Shorter, bool IsMixed = false);

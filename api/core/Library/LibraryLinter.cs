using System.Text.RegularExpressions;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;

namespace FuelHistory.Core.Library;

/// <summary>Rules that the form of the file cannot say. Every finding refuses the library.</summary>
public static partial class LibraryLinter
{
    private const int FirstYear = 1945, LastYear = 2010;

    /// <param name="models">The fault models that are known; a limit may also be for a system that is not.</param>
    public static IReadOnlyList<LintNote> Lint(LimitsLibrary library, IReadOnlyDictionary<string, FaultModel> models)
    {
        ArgumentNullException.ThrowIfNull(library);
        ArgumentNullException.ThrowIfNull(models);
        return
        [
            .. library.Limits.GroupBy(l => l.Id).Where(g => g.Count() > 1).Select(g => new LintNote("duplicate-id", $"limits[{g.Key}]", $"{g.Count()} limits have this id. Name each its own.")),
            .. SourceRules(library),
            .. library.Limits.SelectMany(l => Rules(l, models)),
        ];
    }

    private static IEnumerable<LintNote> SourceRules(LimitsLibrary library)
    {
        foreach ((string key, Source source) in library.Sources)
        {
            if (!LimitsLibrary.Trusts.Contains(source.Kind) || string.IsNullOrWhiteSpace(source.Cite))
            {
                yield return new LintNote("source-kind", $"sources[{key}]", $"Kind \"{source.Kind}\" must be one of {string.Join(", ", LimitsLibrary.Trusts)}, and the citation must say something.");
            }

            if (library.Limits.All(l => l.Given.Source != key))
            {
                yield return new LintNote("unused-source", $"sources[{key}]", "No limit names it. Take it out, or name it.");
            }
        }

        foreach (LibraryLimit limit in library.Limits.Where(l => !library.Sources.ContainsKey(l.Given.Source)))
        {
            yield return new LintNote("unknown-source", $"limits[{limit.Id}].given.source", $"\"{limit.Given.Source}\" is not a key of sources. Every limit needs a source.");
        }
    }

    private static List<LintNote> Rules(LibraryLimit limit, IReadOnlyDictionary<string, FaultModel> models)
    {
        List<LintNote> notes = [];
        if (!Id().IsMatch(limit.Id))
        {
            Add("id-form", "id", "Ids are lower-case words joined by hyphens.");
        }

        if (limit.Systems.Count == 0)
        {
            Add("no-system", "systems", "Name at least one fault model.");
        }

        if (limit.Given.From > limit.Given.To || limit.Given.From < FirstYear || limit.Given.To > LastYear)
        {
            Add("years", "given", $"Years {limit.Given.From}-{limit.Given.To} are not in order between {FirstYear} and {LastYear}.");
        }

        if (limit.PartlyOurs && string.IsNullOrWhiteSpace(limit.Worked))
        {
            Add("not-worked", "worked", "Some figures are our own: say which, and how they follow.");
        }

        notes.AddRange(FigureRules(limit));
        notes.AddRange(CheckRules(limit, models));
        return notes;

        void Add(string rule, string member, string message) => notes.Add(new LintNote(rule, $"limits[{limit.Id}].{member}", message));
    }

    private static IEnumerable<LintNote> CheckRules(LibraryLimit limit, IReadOnlyDictionary<string, FaultModel> models)
    {
        FaultModel[] known = [.. limit.Systems.Where(models.ContainsKey).Select(s => models[s])];
        string[] without = limit.NotForJudging is null ? [.. known.Where(m => !m.Checks.Any(c => limit.Checks.Contains(c.Id))).Select(m => m.Id)] : [];
        if (without.Length > 0 && limit.NoCheck is null)
        {
            yield return new LintNote("no-check", $"limits[{limit.Id}].checks", $"No check of {string.Join(", ", without)} is named. Name the one that reads just this, or say in noCheck why there is none.");
        }
        else if (limit.NoCheck is not null && known.Length == limit.Systems.Count && without.Length == 0)
        {
            yield return new LintNote("no-check", $"limits[{limit.Id}].noCheck", "Every system has a check for it, or no reading is judged by it. Take noCheck out.");
        }

        foreach (string id in limit.Checks)
        {
            string path = $"limits[{limit.Id}].checks[{id}]";
            if (limit.NotForJudging is not null)
            {
                yield return new LintNote("not-for-judging", path, "A limit that judges no reading serves no check.");
            }

            Check[] checks = [.. known.SelectMany(m => m.Checks).Where(c => c.Id == id)];
            if (known.Length == limit.Systems.Count && checks.Length == 0)
            {
                yield return new LintNote("unknown-check", path, $"None of {string.Join(", ", limit.Systems)} has this check.");
            }

            foreach (Check check in checks.Where(c => LibraryFigures.WhyNot(limit, c) is not null))
            {
                yield return new LintNote("check-mismatch", path, LibraryFigures.WhyNot(limit, check)!);
            }
        }
    }

    [GeneratedRegex("^[a-z0-9]+(-[a-z0-9]+)*$")]
    private static partial Regex Id();
}

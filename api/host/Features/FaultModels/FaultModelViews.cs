using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Limits;
using FuelHistory.Host.Validation;
using LimitPoint = FuelHistory.Contracts.LimitPoint;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>A fault model as a client sees it: what can be asked, done and named.</summary>
internal static class FaultModelViews
{
    // the model's verbs and the record's
    private static readonly Dictionary<string, string> Actions = new() { ["replace"] = "fitted", ["clean"] = "cleaned", ["adjust"] = "adjusted" };

    public static FaultModelView Of(FaultModel model) => new(
        model.Id, model.Title, model.Revision, model.About,
        [.. model.Components.Select(c => new ComponentView(
            c.Id, c.Title, c.Instrument, [.. c.Modes.Select(m => new NamedThing(m.Id, m.Title))],
            c.Instrument ? [] : [.. c.Work.Select(w => Actions.GetValueOrDefault(w.Action, w.Action)).Append("inspected").Distinct()]))],
        [.. model.Cells.GroupBy(c => c.Event ?? c.Id).Select(g => Of(model, g.Key, [.. g]))],
        [.. model.Checks.Select(c => Of(model, c))],
        [.. model.Tools.Select(t => new NamedThing(t.Id, t.Title))],
        [.. model.Incidents.Select(i => new NamedThing(i.Id, i.Title))],
        [.. model.Sources.Select(s => new SourceView(s.Key, s.Value.Kind, s.Value.Cite))],
        [.. model.Trials.Select(t => new TrialView(t.Id, t.Title, t.Do, t.Component, t.Minutes, t.SetupMinutes, t.Tools, t.Hazard, t.Cautions, t.Steps, Cited(model, t.Source)))],
        Named(CommonWords.Sides),
        Named(CommonWords.Onsets))
    {
        Options = [.. model.Options.Select(o => new OptionView(o.Id, o.Title, o.Ask, [.. o.Choices.Select(c => new NamedThing(c.Id, c.Title))]))],
    };

    private static IReadOnlyList<NamedThing> Named(IReadOnlyList<Facet> words) => [.. words.Select(w => new NamedThing(w.Id, w.Title))];

    private static EventView Of(FaultModel model, string id, EventCell[] cells)
    {
        var source = model.Events.FirstOrDefault(e => e.Id == id);
        return new EventView(
            id, source?.Title ?? cells[0].Title, source?.Ask ?? cells[0].Ask, source?.Kind ?? "other",
            Named(model.When, cells.Select(c => c.When)), Named(model.Then, cells.Select(c => c.Then)),
            [.. cells.Select(c => new EventCellView(c.Id, c.When, c.Then, c.Title, c.Ask))]);
    }

    private static IReadOnlyList<NamedThing> Named(IReadOnlyList<Facet> all, IEnumerable<string?> used)
    {
        HashSet<string> ids = [.. used.OfType<string>()];
        return [.. all.Where(f => ids.Contains(f.Id)).Select(f => new NamedThing(f.Id, f.Title))];
    }

    public static CheckView Of(FaultModel model, Check check) => new(
        check.Id, check.Title, Kind(check), check.Quantity is null && check.Kind is not CheckKind.LeakDown ? null : ReadingRules.QuantityOf(check).Id,
        check.Kind is CheckKind.Measurement or CheckKind.LeakDown ? ReadingRules.UnitOf(check) : null, Outcomes(check),
        check.Minutes, check.Setup, check.SetupMinutes, check.Tools, check.Hazard, check.Cautions, check.Steps, Limits(model, check),
        Cited(model, check.Source),
        check.Covariate is { } v ? new CovariateView(v.Id, v.Title, v.Quantity, v.Unit) : null);

    private static string Kind(Check check) => check.Kind switch
    {
        CheckKind.Measurement => "measurement",
        CheckKind.LeakDown => "leak-down",
        CheckKind.YesNo => "yes-no",
        _ => "outcomes",
    };

    private static IReadOnlyList<NamedThing> Outcomes(Check check) => check.Kind switch
    {
        CheckKind.Measurement => Named(CommonWords.LimitWords),
        CheckKind.LeakDown => [new("hold", "holds"), new("slow", "falls slowly"), new("fast", "falls fast"), new("steep-then-flat", "drops at once, then stays")],
        CheckKind.YesNo => [new("yes", check.Yes ?? "yes"), new("no", check.No ?? "no")],
        _ => [.. check.Outcomes!.Select(o => new NamedThing(o.Id, o.Title))],
    };

    private static string? Limits(FaultModel model, Check check)
    {
        if (check.Limits is not { } limits)
        {
            return null;
        }

        var figures = LimitWords.Figures(limits.Unit, limits.Low, limits.High, [.. limits.Points.Select(p => new LimitPoint(p.Minutes, p.At, p.Low, p.High))], check.Covariate?.Unit);
        return $"{figures} (typical; {Cited(model, limits.Source)})";
    }

    private static string Cited(FaultModel model, string source) =>
        model.Sources.TryGetValue(source, out var found) ? $"{found.Kind.Replace('-', ' ')}: {found.Cite}" : source;
}

using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.Findings;
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
        [.. model.Events.Select(e => Of(model, e)), .. model.Cells.Where(c => c.Event is null).Select(OfItself)],
        [.. model.Checks.Select(c => Of(model, c))],
        [.. model.Tools.Select(t => new NamedThing(t.Id, t.Title))],
        [.. model.Incidents.Select(i => new NamedThing(i.Id, i.Title))],
        [.. model.Sources.Select(s => new SourceView(s.Key, s.Value.Kind, s.Value.Cite))],
        [.. model.Trials.Select(t => Of(model, t))],
        [.. CarSides.Titles.Select(s => new NamedThing(s.Key, s.Value))],
        [.. CarSides.Onsets.Select(o => new NamedThing(o.Key, o.Value))]);

    private static EventView Of(FaultModel model, Event e)
    {
        List<EventCell> cells = [.. model.Cells.Where(c => c.Event == e.Id)];
        return new EventView(
            e.Id, e.Title, e.Ask, e.Kind,
            [.. model.When.Where(f => cells.Any(c => c.When == f.Id)).Select(f => new NamedThing(f.Id, f.Title))],
            [.. model.Then.Where(f => cells.Any(c => c.Then == f.Id)).Select(f => new NamedThing(f.Id, f.Title))],
            [.. cells.Select(Of)]);
    }

    private static EventView OfItself(EventCell cell) => new(cell.Id, cell.Title, cell.Ask, "other", [], [], [Of(cell)]);

    private static EventCellView Of(EventCell cell) => new(cell.Id, cell.When, cell.Then, cell.Title, cell.Ask);

    private static TrialView Of(FaultModel model, Trial trial) => new(
        trial.Id, trial.Title, trial.Do, trial.Component, trial.Minutes, trial.SetupMinutes, trial.Tools, trial.Hazard, trial.Cautions, trial.Steps,
        Cited(model, trial.Source));

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
        CheckKind.Measurement => [],
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

using System.Collections.Concurrent;
using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>The study of each fault model, made when it is first asked for; the models do not change while the host runs.</summary>
public sealed class FaultModelStudies
{
    /// <summary>A cell of an event is listed under a fault that raises it by this much; a check from as many bits.</summary>
    private const double Rises = 0.05, Says = 0.05;

    private readonly ConcurrentDictionary<string, Lazy<FaultModelStudy>> studies = new();

    public FaultModelStudy Of(LoadedModel loaded) => studies.GetOrAdd(loaded.Compiled.Source.Id, _ => new(() => Made(loaded.Compiled.Source, loaded.PairReasons))).Value;

    private static FaultModelStudy Made(FaultModel model, IReadOnlyDictionary<string, string> reasons)
    {
        var study = ModelStudy.Of(model);
        var names = Titles(model);
        return new FaultModelStudy(
            model.Id, model.Title, model.Revision, model.About,
            [.. study.Modes.Select(m => Fault(model, m, names))],
            [.. model.Conditions.Select(c => new StudiedCondition(c.Id, c.Title, [.. c.Effects.Select(e => Named(e.Of, names))]))],
            [.. study.Pairs.Select(p => new FaultPair(Named(p.A, names), Named(p.B, names), Rounded(p.Apart), Named(p.Check, names), reasons.GetValueOrDefault(ReviewedPairs.Key(p.A, p.B))))]);
    }

    private static StudiedFault Fault(FaultModel model, ModeStudy studied, Dictionary<string, string> names)
    {
        var id = $"{studied.Component}.{studied.Mode}";
        var mode = model.Components.Single(c => c.Id == studied.Component).Modes.Single(m => m.Id == studied.Mode);
        var source = model.Sources[mode.Source];
        return new StudiedFault(
            studied.Component, studied.Mode, names[id], source.Kind, source.Cite,
            [.. model.Conditions.Where(c => c.Effects.Any(e => e.Of == id)).Select(c => new NamedThing(c.Id, c.Title))],
            [.. mode.CausedBy.Select(c => Named(c, names))],
            [.. model.Cells.Select(s => (s, P: studied.Cells[s.Id])).Where(x => x.P > x.s.Background + Rises).OrderByDescending(x => x.P).Select(x => new StudiedFigure(x.s.Id, x.s.Title, Rounded(x.P)))],
            [.. studied.Bits.Where(b => b.Value >= Says).OrderByDescending(b => b.Value).Select(b => new StudiedFigure(b.Key, names[b.Key], Rounded(b.Value)))]);
    }

    /// <summary>Titles by the id of a fault (component.mode), else of a check, else of a condition; the three cannot be taken for one another where they are used.</summary>
    private static Dictionary<string, string> Titles(FaultModel model)
    {
        Dictionary<string, string> titles = model.Conditions.ToDictionary(c => c.Id, c => c.Title);
        foreach (var check in model.Checks)
        {
            titles[check.Id] = check.Title;
        }

        foreach (var component in model.Components)
        {
            component.Modes.ToList().ForEach(m => titles[$"{component.Id}.{m.Id}"] = $"{component.Title}: {m.Title}");
        }

        return titles;
    }

    private static NamedThing Named(string id, Dictionary<string, string> names) => new(id, names.GetValueOrDefault(id, id));

    private static double Rounded(double value) => Math.Round(value, 3);
}

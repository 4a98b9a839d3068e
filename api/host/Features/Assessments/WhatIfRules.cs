using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Features.Works;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Assessments;

/// <summary>Tried entries are held to the rules of recorded ones, but for one: a closed complaint may be tried too.</summary>
public sealed class WhatIfRules(FindingRules findingRules, WorkRules workRules, FindingStore findings, WorkStore works)
{
    /// <summary>More of one kind than anybody tries by hand; each costs a computation of its own.</summary>
    private const int Most = 40;

    /// <summary>Checks everything at once; what is wrong is in the step's faults.</summary>
    public void Check(Step step, WhatIf input)
    {
        Each(step, "/findings", input.Findings, findingRules.Content);
        Each(step, "/work", input.Work, (part, work) => workRules.Check(part, work));
        LeftOut(step, input.LeaveOut ?? []);
    }

    /// <summary>What is tried has to have happened by the day of the assessment, or it would not count.</summary>
    public static void Happened(Faults faults, WhatIf input, DateOnly day)
    {
        foreach (var (pointer, on) in Days(input).Where(d => d.On > day))
        {
            faults.Add(pointer, Problems.ImpossibleDate, $"{Names.Field(pointer)} lies on {on:yyyy-MM-dd}, after asOf ({day:yyyy-MM-dd}), so that it would not count; make asOf later or the entry earlier.");
        }
    }

    /// <summary>The first possible day of each tried entry.</summary>
    public static IEnumerable<(string Pointer, DateOnly On)> Days(WhatIf input) =>
        (input.Findings ?? []).Select((f, place) => ($"/findings/{place}/at", DateOnly.FromDateTime(f.At.DateTime)))
            .Concat((input.Work ?? []).Select((w, place) => ($"/work/{place}/date", RoughDate.Parse(w.Date).Earliest)));

    private static void Each<T>(Step step, string list, IReadOnlyList<T>? entries, Action<Step, T> check)
    {
        if (entries?.Count > Most)
        {
            step.Faults.Add(list, Problems.OutOfRange, $"{entries.Count} at once are too many to try; at most {Most}.");
            return;
        }

        for (var place = 0; place < entries?.Count; place++)
        {
            var part = step with { Faults = new Faults() };
            check(part, entries[place]);
            step.Faults.Under($"{list}/{place}", part.Faults);
        }
    }

    private void LeftOut(Step step, IReadOnlyList<string> ids)
    {
        if (ids.Count == 0)
        {
            return;
        }

        var connection = step.Session.Connection;
        var known = findings.OfVehicle(connection, step.Car!).Select(f => f.Entry)
            .Concat(works.OfVehicle(connection, step.Car!.Vehicle.Entry.Id).Select(w => w.Entry))
            .Where(e => e.VoidReason is null).Select(e => e.Id).ToHashSet();
        for (var place = 0; place < ids.Count; place++)
        {
            if (!known.Contains(ids[place]))
            {
                step.Faults.Add($"/leaveOut/{place}", Problems.Unknown, $"\"{ids[place]}\" is no finding and no work of this vehicle (void ones do not count anyway); give the id of a recorded entry.");
            }
            else if (ids.Take(place).Contains(ids[place]))
            {
                step.Faults.Add($"/leaveOut/{place}", Problems.Unsuitable, $"\"{ids[place]}\" is named twice; once is enough.");
            }
        }
    }
}

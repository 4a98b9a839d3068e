using FuelHistory.Contracts;
using FuelHistory.Core.Life;
using FuelHistory.Host.Features.Odometers;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Works;

public sealed class WorkRules(OdometerRules odometers)
{
    private const double OldestPart = 100;
    private const decimal DearestWork = 1_000_000;

    public Refused? Check(Step step, NewWork input)
    {
        var faults = step.Faults;
        faults.OneOf("/action", input.Action, "fitted", "rebuilt", "cleaned", "adjusted", "inspected", "unknown");
        faults.OneOf("/known", input.Known, "did-it", "seen", "invoice", "told");
        faults.OneOf("/quality", input.Quality, "new", "new-unbranded", "rebuilt", "used", "unknown");
        faults.OneOf("/reason", input.Reason, "failed", "preventive", "unknown");
        faults.Text("/maker", input.Maker, Lengths.Name);
        faults.Text("/partNumber", input.PartNumber, Lengths.Name);
        faults.Text("/note", input.Note, Lengths.Note);
        Components(step, input.Components);
        Part(faults, input);
        Look(step, input);
        Cost(faults, input.Cost);
        var date = When(step, input);
        if (input.Odometer is { } reading)
        {
            odometers.Reading(step, "/odometer", reading, date);
        }

        return null;
    }

    private static void Components(Step step, IReadOnlyList<string> components)
    {
        if (components.Count == 0)
        {
            step.Faults.Required("/components", "components is empty; name at least one component of the fault model.");
        }

        for (var i = 0; i < components.Count; i++)
        {
            var id = components[i];
            if (components.Take(i).Contains(id))
            {
                step.Faults.Add($"/components/{i}", Problems.Unsuitable, $"\"{id}\" is named twice; once is enough.");
            }
            else if (step.Faults.Known($"/components/{i}", "component", id, step.Car!.Model.Components.Where(c => !c.Instrument).Select(c => c.Id)))
            {
                FittedRules.Has(step.Faults, step.Car, $"/components/{i}", id);
            }
        }
    }

    // What was fitted has a quality; what was cleaned, adjusted or looked at is still the same part.
    private static void Part(Faults faults, NewWork input)
    {
        if (input.Quality != "unknown" && input.Action is ("cleaned" or "adjusted" or "inspected" or "unknown"))
        {
            faults.Add("/quality", Problems.Unsuitable, $"quality \"{input.Quality}\" belongs to a part that is fitted; with action \"{input.Action}\" leave it out.");
        }

        if (input.PartAgeYears is not null && input.Quality != "used")
        {
            faults.Add("/partAgeYears", Problems.Unsuitable, $"partAgeYears is the age of a used part; the quality here is \"{input.Quality}\". Leave it out, or say \"used\".");
        }

        faults.Within("/partAgeYears", input.PartAgeYears, 0, OldestPart, " years");
    }

    // What an inspection found is of one part; nothing else that is done finds anything.
    private static void Look(Step step, NewWork input)
    {
        Faults faults = step.Faults;
        if (input.Outcome is not { } outcome)
        {
            NoLook(faults, "/mode", input.Mode is not null);
            NoLook(faults, "/how", input.How is not null);
            NoLook(faults, "/sure", !input.Sure);
            return;
        }

        faults.OneOf("/outcome", outcome, "good", "bad");
        faults.OneOf("/how", input.How ?? "seen", "seen", "tested");
        if (input.Action != "inspected")
        {
            faults.Add("/outcome", Problems.Unsuitable, $"outcome \"{outcome}\" belongs to an inspection; with action \"{input.Action}\" leave it out, or enter what was found as an inspection of its own.");
        }
        else if (input.Components.Count > 1)
        {
            faults.Add("/components", Problems.Unsuitable, $"outcome \"{outcome}\" is of one component, and {input.Components.Count} are named; enter one inspection for each.");
        }
        else if (input.Mode is { } mode && outcome == "good")
        {
            faults.Add("/mode", Problems.Unsuitable, $"mode \"{mode}\" does not belong here: a good part has no mode. Leave it out.");
        }
        else if (input.Mode is { } bad && input.Components is [var id] && step.Car!.Component(id) is { } part)
        {
            faults.Known("/mode", $"mode of {id}", bad, part.Modes.Select(m => m.Id));
        }
    }

    private static void NoLook(Faults faults, string pointer, bool there)
    {
        if (there)
        {
            faults.Add(pointer, Problems.Unsuitable, $"{Names.Field(pointer)} says more of what an inspection found, and outcome (good or bad) is missing. Give it, or leave {Names.Field(pointer)} out.");
        }
    }

    private static void Cost(Faults faults, Money? cost)
    {
        if (cost is null)
        {
            return;
        }

        MoneyRules.Currency(faults, "/cost/currency", cost.Currency);
        MoneyRules.Amount(faults, "/cost/amount", cost.Amount, cost.Currency, DearestWork);
    }

    private static RoughDate? When(Step step, NewWork input)
    {
        var date = step.Days.Past(step.Faults, "/date", input.Date);
        step.Days.Past(step.Faults, "/at", input.At);
        if (date is not null && input.At is { } at && DateOnly.FromDateTime(at.DateTime) is var day && (day < date.Earliest || day > date.Latest))
        {
            step.Faults.Add("/at", Problems.ImpossibleDate, $"at is on {day:yyyy-MM-dd}, the date says {date.Text}; make them agree, or leave one to say it.");
        }

        return date;
    }
}

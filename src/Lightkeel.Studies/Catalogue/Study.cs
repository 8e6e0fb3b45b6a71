using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Catalogue;

/// <summary>A study: an input record, a result record, and the computation that leads from one to the other.</summary>
/// <typeparam name="TInput">Input record, everything in SI units.</typeparam>
/// <typeparam name="TResult">
/// Result record. Each property has a JSON name with its unit (<c>thrust_N</c>); one that may not exist is nullable and has a
/// text property beside it of the same JSON name with <c>_reason</c>, left out when null.
/// </typeparam>
public abstract class Study<TInput, TResult> : IStudy
{
    /// <inheritdoc/>
    public abstract StudyInfo Info { get; }

    /// <inheritdoc/>
    public abstract IReadOnlyList<StudyOption> Options { get; }

    /// <inheritdoc/>
    public JsonTypeInfo ResultShape => ResultJson;

    /// <inheritdoc/>
    public virtual JsonTypeInfo ResultShapeOf(StudyRequest request) => ResultJson;

    /// <summary>How the result record is written as JSON, from a source-generated context.</summary>
    protected abstract JsonTypeInfo<TResult> ResultJson { get; }

    /// <summary>Computes. This is the call for C#.</summary>
    /// <param name="input">The input.</param>
    /// <param name="context">Seed, accuracy, threads, progress, cancellation.</param>
    public abstract TResult Run(TInput input, StudyContext context);

    /// <summary>Builds the input from the values of the options.</summary>
    /// <param name="request">The values.</param>
    /// <exception cref="InputRefusedException">They do not go together.</exception>
    protected abstract TInput ReadInput(StudyRequest request);

    /// <summary>Shows a result to people.</summary>
    /// <param name="input">The input.</param>
    /// <param name="result">The result.</param>
    protected abstract StudyPresentation Present(TInput input, TResult result);

    /// <inheritdoc/>
    StudyOutcome IStudy.Run(StudyRequest request, StudyContext context)
    {
        TInput input = ReadInput(request);
        TResult result = Run(input, context);
        return new(ResultDocument.From(result, ResultJson), Present(input, result));
    }
}
